/** The panel with the car, as a person sees and uses it: its page within the window, its pixels, its lists. */
import { decode } from 'fast-png';
import { setTimeout as sleep } from 'node:timers/promises';

const PATIENCE = 60_000;
/** Sum over red, green and blue above which a pixel is another. */
const OTHER = 24;
/** Several looks at a picture must be the same before it counts as at rest. */
const REST_MS = 150;

/** All that lies over the bodies: words, figures, handles. And words alone. */
export const BARE = '.labels, .over, .tip, .status';
const WORDS = '.labels, .tip, .status';

/** Asks until the answer is neither null nor false. */
export const until = async (what, ask) => {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const answer = await ask();
    if (answer !== null && answer !== false) return answer;
    if (Date.now() > end) throw new Error(`Waited in vain: ${what}.`);
    await sleep(50);
  }
};

/** Pixels that differ between two pictures of the same size, as indices. */
export const changed = (before, after) => {
  if (before.width !== after.width || before.height !== after.height) throw new Error('The picture has another size.');
  const found = [];
  for (let at = 0; at < before.width * before.height; at += 1) {
    let off = 0;
    for (let part = 0; part < 3; part += 1)
      off += Math.abs(before.data[at * before.channels + part] - after.data[at * after.channels + part]);
    if (off > OTHER) found.push(at);
  }
  return found;
};

/** How many different colours a picture has, at most `most`. */
export const colours = ({ data, channels, width, height }, most = 64) => {
  const seen = new Set();
  for (let at = 0; at < width * height && seen.size < most; at += 1)
    seen.add((data[at * channels] << 16) | (data[at * channels + 1] << 8) | data[at * channels + 2]);
  return seen.size;
};

/** The pixel that is farthest inside a set: its neighbours on all sides belong to it too. */
const innermost = (pixels, width) => {
  const all = new Set(pixels);
  let best = pixels[0];
  let deepest = -1;
  for (const at of pixels) {
    let depth = 0;
    while (
      depth < 12 &&
      [1, -1, width, -width, width + 1, -width - 1, width - 1, 1 - width].every((step) =>
        all.has(at + step * (depth + 1)),
      )
    )
      depth += 1;
    if (depth > deepest) [best, deepest] = [at, depth];
  }
  return best;
};

export class Panel {
  constructor(window, name, frame) {
    this.window = window;
    this.name = name;
    this.frame = frame;
  }

  /** Finds the panel of a file, which may come up only now. */
  static async of(window, name) {
    const frame = await until(`the panel of ${name}`, () => Panel.frameOf(window, name));
    const panel = new Panel(window, name, frame);
    await panel.untilDrawn();
    return panel;
  }

  static async frameOf(window, name) {
    for (const frame of window.page.frames()) {
      if (!frame.url().includes('/fake.html')) continue;
      const element = await frame.frameElement().catch(() => null);
      const [title, id] = await Promise.all(
        ['title', 'id'].map((key) => element?.getAttribute(key).catch(() => null) ?? null),
      );
      if (title === `Car: ${name}` && id === 'active-frame') return frame;
    }
    return null;
  }

  get canvas() {
    return this.frame.locator('canvas.bodies');
  }

  /** The list of parts is there when the model is. */
  async untilDrawn() {
    await until('a model in the panel', async () => (await this.lines('parts')).length > 0);
    await this.rest();
  }

  /** Lines of one of the lists. */
  lines(list) {
    return this.frame.locator(`#page-${list} [role="option"]`).allTextContents();
  }

  async openTab(name) {
    await this.frame.locator(`#tab-${name}`).click();
  }

  /** Picks a line of a list whose words fit. */
  async pickLine(list, words) {
    await this.openTab(list);
    await this.frame.locator(`#page-${list} [role="option"]`, { hasText: words }).first().click();
  }

  /** Takes layers out of the picture, by their words. */
  async leaveOut(...names) {
    await this.openTab('tools');
    for (const name of names) await this.frame.getByRole('checkbox', { name }).uncheck();
  }

  async button(name) {
    await this.frame.getByRole('button', { name, exact: true }).click();
  }

  /** Chooses from the list that a button opens. */
  async choose(button, item) {
    await this.button(button);
    await this.frame.getByRole('menuitem', { name: item }).click();
  }

  /** What the panel said last of what it did. */
  said() {
    return this.frame.locator('.status').innerText();
  }

  /** What a person sees of the picture; `without`: what is left out, as a selector. */
  async pixels(without = '') {
    await this.show(without, false);
    const shot = decode(await this.canvas.screenshot());
    await this.show(without, true);
    return shot;
  }

  /** What lies over the picture is for reading, and in the way of counting pixels. */
  async show(what, shown) {
    if (what === '') return;
    await this.frame.evaluate(
      ([selector, visibility]) => {
        for (const one of globalThis.document.querySelectorAll(selector)) one.style.visibility = visibility;
      },
      [what, shown ? '' : 'hidden'],
    );
  }

  /** Waits until the picture stands still; the picture. */
  async rest(without = '') {
    let before = await this.pixels(without);
    return until('the picture to stand still', async () => {
      await sleep(REST_MS);
      const after = await this.pixels(without);
      const same = after.width === before.width && after.height === before.height;
      // While the camera moves the picture may have fewer pixels than the page shows.
      const whole = await this.canvas.evaluate(({ width, clientWidth }) => width >= clientWidth);
      const still = same && whole && changed(before, after).length === 0;
      before = after;
      return still ? after : null;
    });
  }

  /** Where on the screen a pixel of the picture is. */
  async onScreen(at, { width }) {
    const box = await this.canvas.boundingBox();
    return { x: box.x + (at % width) + 0.5, y: box.y + Math.floor(at / width) + 0.5 };
  }

  /** Where on the screen the handle of the node is that is written at a place; seen from where its twin is behind it. */
  async handle(place, nowhere) {
    const { pixels, width } = await this.litBy(place, nowhere, WORDS);
    const middle = (of) => pixels.reduce((sum, at) => sum + of(at), 0) / pixels.length;
    const box = await this.canvas.boundingBox();
    return { x: box.x + middle((at) => at % width) + 0.5, y: box.y + middle((at) => Math.floor(at / width)) + 0.5 };
  }

  /** The words at a node that is dragged; '' while there are none. */
  async movingLabel() {
    const labels = await this.frame.locator('.label').allInnerTexts();
    return labels.find((text) => /\b[xyz] -?\d/.test(text)) ?? '';
  }

  /**
   * The pixels of what the cursor lights at a place in the text, against those when it stands where nothing is drawn.
   * @param {[number, number]} place line and column, from 1
   * @param {[number, number]} nowhere
   */
  async litBy(place, nowhere, without = BARE) {
    await this.window.goToText(...nowhere);
    const dark = await this.rest(without);
    await this.window.goToText(...place);
    const lit = await until('something to light up', async () => {
      const now = await this.rest(without);
      return changed(dark, now).length > 0 ? now : null;
    });
    const pixels = changed(dark, lit);
    return { pixels, width: dark.width, point: await this.onScreen(innermost(pixels, dark.width), dark) };
  }
}
