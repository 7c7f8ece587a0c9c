/** Hover on a harness bar and on its straps says where the bar may lie; on other tubes nothing of the kind. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hover } from '../../server/editor/hover';
import { analyse } from '../support/analyse';

const PLOVER = readFileSync(join(__dirname, '../../samples/plover-rollbar.cage'), 'utf8');

async function hoverAt(text: string, words: string): Promise<string> {
  const analysis = await analyse(text);
  const offset = text.indexOf(words) + words.length - 1;
  return hover(analysis, 'example.cage', offset)?.markdown ?? '';
}

describe('where the bar may lie', () => {
  it('is said on the tube, on a strap, and where a strap names the tube', async () => {
    for (const words of [
      'tube harness-bar',
      'strap driver-outer',
      'strap driver-inner { seat driver; slot inner; to harness-bar',
    ]) {
      const said = await hoverAt(PLOVER, words);
      expect(said).toMatch(/Window: x -?\d+ to -\d+, z \d+ to \d+ \(mm\)/);
      expect(said).toMatch(/Preferred, with the recommendations: x -?\d+ to -\d+, z \d+ to \d+ \(mm\)/);
      expect(said).toMatch(/The bar now: x = -150, z = 756, inside/);
    }
  });

  it('is not said on a tube without straps', async () => {
    expect(await hoverAt(PLOVER, 'tube main-hoop')).not.toContain('may lie');
    expect(await hoverAt(PLOVER, 'tube diagonal')).not.toContain('may lie');
  });

  it('says by how much to move a bar that lies outside', async () => {
    const high = PLOVER.replace('let bar-height = 756', 'let bar-height = 790');
    expect(await hoverAt(high, 'tube harness-bar')).toMatch(/outside: move it \d+ mm down/);
  });

  it('names the two limits that exclude each other', async () => {
    const tight = PLOVER.replaceAll('hardware 110', 'hardware 240');
    expect(await hoverAt(tight, 'tube harness-bar')).toMatch(
      /none; two limits exclude each other.*strap\.(length|free-run)/,
    );
  });

  it('stays quiet where nothing can be worked out', async () => {
    const broken = PLOVER.replace(/^seat driver \{/m, 'seat drover {').replace(
      /^seat passenger \{/m,
      'seat passanger {',
    );
    expect(await hoverAt(broken, 'tube harness-bar')).not.toContain('may lie');
  });
});
