/** That the picture is calm: what is only told is told by its sign, the hover leaves the picture to be seen; what stands in the car. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './page.mjs';

// The roll bar, with stays that stand in the car already.
const STANDING = '.build/view-web/standing.cage';

/** Moves the pointer there and waits for the hover, if there is a part under it; whether there is. */
const hoverAt = async ({ page, frame }, until, { x, y }) => {
  await page.mouse.move(x, y);
  await frame();
  const isOver = await page.locator('canvas.bodies').evaluate((one) => one.classList.contains('over-part'));
  return isOver && until(() => page.locator('.tip').isVisible());
};

export const calmScenes = async ({ scene, check, press, until }) => {
  const standing = readFileSync(join(root, 'samples/plover-rollbar.cage'), 'utf8').replace(
    'as backstay {',
    'as backstay {\n    existing yes',
  );
  writeFileSync(join(root, STANDING), standing);
  await scene('calm on a small panel', { size: [500, 800] }, async (open) => {
    const { page, editor } = open;
    await until(async () => (await page.locator('.label.information').count()) > 3);
    await open.shot('small-1-free');
    const { findings } = editor.model();
    check(
      'the car has findings that are only told, and no others',
      findings.length > 3 && findings.every(({ severity }) => severity === 'information'),
      findings.map(({ severity }) => severity),
    );
    const words = page.locator('.label.problem .words:visible');
    check('what is only told shows its sign', (await page.locator('.label.problem .sign:visible').count()) > 3);
    check('and no words', (await words.count()) === 0, await words.allTextContents());
    await page.locator('.label.mute:not(.away)').first().hover();
    check('until the pointer is on it', (await words.count()) === 1);
    await open.shot('small-2-sign');
    await page.mouse.move(2, 2);
    await page.locator('#page-findings [role=option]').first().click();
    await open.frame();
    check('or it is chosen', (await words.count()) > 0);
    await press(open, 'Escape');
    check('and then no more', (await words.count()) === 0);
    editor.goTo('tube half-lateral');
    check('or the cursor is in its part', await until(async () => (await words.count()) > 0));
    await press(open, 'Escape');

    const regions = () => page.locator('.label.region').count();
    check('the region is not told where it is not seen as it is', (await regions()) === 0);
    await press(open, '2');
    await open.shot('small-3-side');
    check('from the side it is', (await regions()) > 0);
    await press(open, 'ArrowLeft');
    await press(open, 'ArrowLeft');
    await press(open, 'ArrowLeft');
    await press(open, 'ArrowLeft');
    check('and turned away from there no more', (await regions()) === 0);
    editor.goTo('tube harness-bar');
    check('unless its bar is asked for', await until(async () => (await regions()) > 0));
    await press(open, 'Escape');
    await press(open, '0');

    const picture = await page.locator('.picture').boundingBox();
    const tip = page.locator('.tip');
    const overs = [];
    for (let i = 2; i < 9; i++) {
      const at = { x: picture.x + (picture.width * i) / 10, y: picture.y + picture.height * 0.55 };
      if (!(await hoverAt(open, until, at))) continue;
      if (overs.length === 0) await open.shot('small-4-hover');
      const { x, y, width, height } = await tip.boundingBox();
      const cut = await tip.evaluate((one) => one.scrollHeight > one.clientHeight + 1);
      const under = at.x >= x && at.x <= x + width && at.y >= y && at.y <= y + height;
      const last = await tip.locator('> :last-child').textContent();
      overs.push({ wide: width / picture.width, high: height / picture.height, cut, under, last });
    }
    const told = JSON.stringify(overs);
    check('the hover takes less than half of the picture’s width and height', overs.length > 0, told);
    check(
      'wherever it is',
      overs.every(({ wide, high }) => wide < 0.5 && high < 0.46),
      told,
    );
    check(
      'never under the pointer, and no line of it cut through',
      overs.every(({ under, cut }) => !under && !cut),
      told,
    );
    check(
      'and what it has no room for is said to be in the text',
      overs.some(({ last }) => /hover of the text/.test(last)),
      told,
    );

    // The figures of a part whose words are long are not what is left out.
    await page.mouse.move(2, 2);
    await page.locator('#tab-tools').click();
    for (const name of ['Seats and helmets', 'Panels and padding', 'Nodes'])
      await page.getByRole('checkbox', { name, exact: true }).uncheck();
    await page.locator('#tab-parts').click();
    await page.locator('#page-parts .filter').fill('half-lateral.right');
    await page.locator('#page-parts [role=option]').first().click();
    await press(open, 'f');
    const field = await page.locator('canvas.bodies').boundingBox();
    let longest = '';
    for (let i = 1; i < 20 && !/tube half-lateral/.test(longest); i++) {
      const at = { x: field.x + (field.width * i) / 20, y: field.y + field.height / 2 };
      if (await hoverAt(open, until, at)) longest = await tip.innerText();
    }
    check('lengths are told also where there are many words', /Centreline\s+\d/.test(longest), longest);
    const longer = await tip.evaluate((one) => one.scrollHeight > one.clientHeight + 1);
    check('and there too no line is cut through', !longer);
  });

  await scene('in the car already', { sample: STANDING }, async (open) => {
    const { page } = open;
    for (const theme of ['dark', 'light', 'contrast']) {
      await open.wear(theme);
      await open.frame();
      await open.frame();
      await open.shot(`existing-${theme}`);
    }
    await page.locator('#tab-parts').click();
    const parts = await page.$$eval('#page-parts [role=option]', (all) => all.map((one) => one.textContent));
    check(
      'a tube that stands in the car is said to',
      parts.filter((text) => /already in the car/.test(text)).length === 2,
      parts.join(' | '),
    );
  });
};
