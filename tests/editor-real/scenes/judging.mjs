/** Findings, fixes, hovers and links beside the text, in a folder that is trusted and in one that is not. */

/** @param {import('../stage.mjs').Stage} stage */
export const judgingScenes = async ({ text, folderOf, scene, check, picture, open, lineOf }) => {
  await scene('trusted window', async () => {
    const window = await open(folderOf('work'));
    await window.openFile('bar.cage');
    const errors = await window.untilSquiggles('error', (count) => count > 0);
    check('an error is underlined when the file is opened', errors > 0);
    await picture('opened');

    // A decimal comma: the fix writes a point, and the underline goes.
    await window.goTo(...lineOf(text, 'wall 2,5', '2,5'));
    const offered = await window.quickFixes();
    await picture('quick-fix');
    check(
      'a fix is offered for the decimal comma',
      offered.some((title) => title.includes('2.5')),
      offered.join(' | '),
    );
    await window.takeFix(offered, /2\.5/);
    const left = await window.untilSquiggles('error', (count) => count === 0);
    check('the underline goes when the fix is taken', left === 0);

    // Now the bar can be computed: the straps drop too steeply.
    await window.untilSquiggles('warning', (count) => count > 0);
    await picture('mended');
    await window.goTo(...lineOf(text, 'strap driver-outer', 'driver-outer'));
    const strap = await window.hover(/Free run/);
    await picture('hover-strap');
    check('the hover on a strap tells that it drops too steeply', /drops .*°.*fia-253/s.test(strap), strap);
    check('and gives its figures', /Drop/.test(strap) && /Free run/.test(strap), strap);
    const link = await window.followCode('strap.drop');
    await picture('link');
    check('the link on its code leads to a page', /strap\.drop\.md/.test(link.tab), link.tab);
    check(
      "that has every book's limit with article, edition and state",
      /fia-253 allows 0 to 45° \(Appendix J, Article 253-6\.2, 2013 text, published\)/.test(link.text),
      link.text,
    );
    await window.showTab('bar.cage');
    await window.escape();

    await window.goTo(...lineOf(text, 'path bar-end.left', 'bar-end'));
    const cope = await window.hover(/337\.5°/);
    await picture('hover-cope');
    check('the hover on a tube end reads how to cope it', /coped to main-hoop/.test(cope), cope);
    check(
      'with the included angle, the depth and the rule of thumb',
      /Included angle.*°.*Depth.*Rule of thumb/s.test(cope),
      cope,
    );
    check(
      'and sixteen marks round the tube',
      ['22.5°', '180.0°', '337.5°'].every((mark) => cope.includes(mark)),
      cope,
    );
    check(
      'counted from TOP or FRONT, with the inside of the bend',
      /(TOP|FRONT).*inside of the nearest bend/s.test(cope),
      cope,
    );
    await window.escape();

    // Where the bar may be is in its hover; the fix that raises it there is solved when it is asked for.
    await window.goTo(...lineOf(text, 'tube harness-bar', 'harness-bar'));
    const where = await window.hover(/axis may lie/);
    await picture('hover-window');
    check('the hover on the harness bar tells where it may be', /x -?\d+ to -?\d+, z \d+ to \d+/.test(where), where);
    await window.escape();
    const steep = await window.squiggles('warning');
    await window.goTo(...lineOf(text, 'strap driver-outer', 'driver-outer'));
    const solved = await window.quickFixes();
    await picture('solved');
    check(
      'a fix is solved that raises all nodes of the bar, with its figures',
      solved.some((title) => /^Raise bar-end and bar-bend from z = 700 to 7\d\d mm, 4 nodes move/.test(title)),
      solved.join(' | '),
    );
    await window.takeFix(solved, /^Raise bar-end and bar-bend/);
    const flat = await window.untilSquiggles('warning', (count) => count < steep);
    check('the warning goes when the bar is raised', flat < steep, `${String(steep)} -> ${String(flat)}`);
    await picture('raised');

    // The bar's bore cannot breathe: the fix writes the vent.
    const before = await window.squiggles('warning');
    await window.goTo(...lineOf(text, 'tube harness-bar', 'harness-bar'));
    const vents = await window.quickFixes();
    check(
      'a vent is offered for the closed bore',
      vents.some((title) => /vent/i.test(title)),
      vents.join(' | '),
    );
    await window.takeFix(vents, /vent/i);
    const after = await window.untilSquiggles('warning', (count) => count < before);
    check('a warning goes when the vent is written', after < before, `${String(before)} -> ${String(after)}`);
    await picture('vented');

    // A line is broken and mended again, by hand.
    const calm = await window.squiggles('error');
    await window.goTo(3, 1);
    await window.page.keyboard.press('End');
    await window.page.keyboard.type(' (');
    const broken = await window.untilSquiggles('error', (count) => count > calm);
    check('breaking a line underlines it', broken > calm);
    await picture('broken');
    await window.page.keyboard.press('Backspace');
    await window.page.keyboard.press('Backspace');
    await window.page.keyboard.press('End');
    await window.page.keyboard.press('Shift+Home');
    await window.page.keyboard.type('units mm');
    await window.escape();
    const again = await window.untilSquiggles('error', (count) => count === calm);
    check('mending it takes the underline away', again === calm);

    // An untitled file is judged like any other.
    await window.command('Cagewright: New Cage File');
    await window.page.locator('.tab.active', { hasText: 'Untitled' }).waitFor();
    await window.page.keyboard.press('Control+End');
    await window.page.keyboard.type('nod a = (0, 0, 0)');
    await window.escape();
    const untitled = await window.untilSquiggles('error', (count) => count > 0);
    check('a mistake in an untitled file is underlined', untitled > 0);
    await picture('untitled');
    await window.close();
  });

  await scene('untrusted window', async () => {
    const window = await open(folderOf('strange'), { trusted: false });
    await window.openFile('bar.cage');
    const errors = await window.untilSquiggles('error', (count) => count > 0);
    check('an error is underlined in an untrusted folder', errors > 0);
    await window.goTo(...lineOf(text, 'tube main-hoop', 'main-hoop'));
    const tube = await window.hover(/Centreline/);
    await picture('untrusted');
    check('and the hover works there', /Centreline/.test(tube), tube);
    await window.close();
  });
};
