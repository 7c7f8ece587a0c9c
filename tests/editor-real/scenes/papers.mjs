/** What is written beside the car: the report for the scrutineer, and the shop papers. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** @param {import('../stage.mjs').Stage} stage */
export const paperScenes = async ({ text, folderOf, scene, check, picture, open, lineOf, printed }) => {
  await scene('report', async () => {
    const folder = folderOf('paper');
    const window = await open(folder);
    await window.openFile('bar.cage');
    await window.untilSquiggles('error', (count) => count > 0);
    await window.goTo(...lineOf(text, 'cage "Wagtail', 'Wagtail'));
    await window.page.keyboard.type('Unsaved ');
    const place = await window.saveAsProposed('Cagewright: Report for the Scrutineer');
    check('the report is proposed beside the file', place === join(folder, 'bar-report.html'), place);
    await window.page.locator('.notification-toast', { hasText: 'The report is written' }).waitFor();
    await picture('report');
    const page = readFileSync(place, 'utf8');
    check(
      'and is the page for the text as it stands, saved or not',
      /Report for the scrutineer: .*Unsaved .*, roll bar<\/title>/.test(page),
      page.slice(0, 400),
    );
    await window.close();
  });

  await scene('shop papers', async () => {
    const folder = folderOf('shop', text.replace('2,5', '2.5'));
    const window = await open(folder);
    await window.openFile('bar.cage');
    await window.untilSquiggles('warning', (count) => count > 0);
    // The folder of the file is proposed.
    await window.takeProposedFolder('Cagewright: Shop Papers', folder);
    const toast = window.page.locator('.notification-toast', { hasText: 'shop papers are written' });
    await toast.waitFor();
    await picture('shop-papers');
    const out = join(folder, 'bar-papers');
    const front = join(out, 'index.html');
    const written = existsSync(out) ? readdirSync(out, { recursive: true }).map(String) : [];
    const said = /\d+/.exec(await toast.innerText())?.[0];
    const papers = written.filter(
      (path) => /\.\w+$/.test(path) && existsSync(join(out, path)) && /\.(html|pdf|svg|dxf|md|csv)$/.test(path),
    );
    check(
      'as many papers are written as it says',
      papers.length > 10 && String(papers.length) === said,
      `${String(said)}: ${written.join(' ')}`,
    );
    check(
      'templates in all forms',
      ['a4.pdf', 'letter.pdf', 'svg', 'dxf'].every((ending) =>
        papers.some((path) => path.startsWith('templates/') && path.endsWith(ending)),
      ),
      papers.join(' '),
    );
    const page = existsSync(front) ? readFileSync(front, 'utf8') : '';
    check('and a front page that names the car', page.includes('Wagtail'), page.slice(0, 300));
    const links = [...page.matchAll(/href="([^"#][^"]*)"/g)].map(([, href]) => decodeURIComponent(href));
    check(
      'which links every one of them',
      papers.filter((path) => path !== 'index.html').every((path) => links.includes(path)),
      links.join(' '),
    );
    await printed('front-page', pathToFileURL(front).href);

    // A letter of somebody else's lies where a paper goes: nothing is written until the person says so.
    writeFileSync(front, 'a letter');
    await window.takeProposedFolder('Cagewright: Shop Papers', folder);
    const dialog = window.page.locator('.monaco-dialog-box', { hasText: 'Files of others lie there.' });
    await dialog.waitFor();
    await picture('shop-papers-others');
    check(
      'what somebody else has written is left alone until the person says so',
      readFileSync(front, 'utf8') === 'a letter',
    );
    await dialog.getByRole('button', { name: 'Write Over' }).click();
    await dialog.waitFor({ state: 'detached' });
    // The notice of the first time may be there still: the file tells.
    const until = Date.now() + 60_000;
    while (readFileSync(front, 'utf8') !== page && Date.now() < until) await window.page.waitForTimeout(100);
    check('and then written over', readFileSync(front, 'utf8') === page);
    await window.close();
  });
};
