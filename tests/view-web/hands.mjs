/** A node dragged by hand and moved by keys: what follows it, what is written, what takes it back. */
export const handScenes = async ({ scene, check, press, until, bodies, differs, labels, middle }) => {
  await scene('hands on a node', { sample: 'samples/plover-rollbar.cage' }, async (open) => {
    const { page, editor } = open;
    await page.locator('#tab-nodes').click();
    const nodes = await page.$$eval('#page-nodes [role=option]', (all) => all.map((one) => one.textContent));
    const free = nodes.findIndex((text) => /drag: x forward, y left, z up/.test(text));
    const bound = nodes.findIndex((text) => !/drag:/.test(text));
    check('nodes say which can be dragged', free >= 0, nodes.join(' | '));
    check('and what the others hang on', bound >= 0 && nodes[bound].length > 12, nodes.join(' | '));
    await page.locator('#page-nodes [role=option]').nth(free).click();
    await press(open, '2');
    await press(open, 'f');
    await open.shot('node-1-picked');
    const before = editor.text();
    const [cx, cy] = await middle(page);
    await page.mouse.move(cx, cy);
    await page.mouse.down();
    for (let i = 1; i <= 8; i++) {
      await page.mouse.move(cx + i * 6, cy - i * 3);
      await open.frame();
    }
    await until(() => editor.heardTypes().filter((type) => type === 'try').length > 1);
    await open.frame();
    await open.shot('node-2-dragged');
    const during = (await labels(page)).find((text) => /\bx .*z |z .*x /.test(text));
    check('while it is dragged its figures stand beside it', during !== undefined, (await labels(page)).join(' | '));
    check('and nothing is written', editor.text() === before);
    await page.mouse.up();
    await until(() => editor.text() !== before);
    check('letting go writes it', editor.text() !== before);
    const written = editor.text();
    await editor.undo();
    check('as one step that undo takes back', editor.text() === before);

    // Along one axis while its key is held, wherever the hand goes.
    const coordinates = (line) =>
      /\(([^)]*)\)/
        .exec(line)?.[1]
        .split(',')
        .map((one) => one.trim()) ?? [];
    const lineIn = (text, at) => text.split('\n')[at];
    const at = before.split('\n').findIndex((line, number) => line !== lineIn(written, number));
    for (const [axis, place, view] of [
      ['x', 0, '2'],
      ['z', 2, '2'],
      ['y', 1, '3'],
      ['z', 2, '3'],
    ]) {
      await press(open, view);
      await page.locator('#page-nodes [role=option]').nth(free).click();
      await press(open, 'f');
      await page.mouse.move(cx, cy);
      await page.mouse.down();
      await page.keyboard.down(axis);
      await page.mouse.move(cx + 45, cy - 30, { steps: 6 });
      await open.frame();
      await page.mouse.up();
      await page.keyboard.up(axis);
      await until(() => editor.text() !== before);
      const [was, is] = [coordinates(lineIn(before, at)), coordinates(lineIn(editor.text(), at))];
      const moved = was.flatMap((one, number) => (one === is[number] ? [] : [number]));
      const seen = view === '2' ? 'side' : 'front';
      check(
        `with ${axis} held it goes along ${axis} only, seen from the ${seen}`,
        moved.join() === String(place),
        `${was} to ${is}`,
      );
      await editor.undo();
      await until(() => editor.text() === before);
    }

    await press(open, '2');
    await page.locator('#page-nodes [role=option]').nth(free).click();
    await press(open, 'f');
    const still = await bodies(open);
    await page.mouse.move(cx, cy);
    await page.mouse.down();
    await page.mouse.move(cx + 40, cy - 20, { steps: 4 });
    await open.frame();
    await page.keyboard.press('Escape');
    await page.mouse.up();
    await open.frame();
    check('Escape puts it back', editor.text() === before && editor.heardTypes().includes('cancel'));
    await page.mouse.move(5, 5);
    await until(async () => !differs(still, await bodies(open)));
    check('and the picture is as it was', !differs(still, await bodies(open)));

    await press(open, 'Alt+ArrowUp');
    await press(open, 'Alt+ArrowUp');
    await until(async () => /z \d/.test(await page.locator('.status').textContent()));
    check('by keys its figures are told', /z \d/.test(await page.locator('.status').textContent()));
    await press(open, 'Enter');
    await until(() => editor.text() !== before);
    check('and Enter writes them', editor.text() !== before && editor.text() !== written);
  });
};
