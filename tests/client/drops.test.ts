/** Which text an undo of the picture takes back what was dropped from. */
import { describe, expect, it } from 'vitest';
import { Drops } from '../../client/view/drops';
import { CAR } from './models';

describe('what was dropped', () => {
  it('is taken back from the last to the first, while nothing was typed between', () => {
    const drops = new Drops();
    let version: number | null = 4;
    const of = (uri: string): number | null => (uri === CAR ? version : null);
    expect(drops.next(of)).toBeNull();
    drops.wrote(CAR, 3, 4);
    drops.wrote(CAR, 4, 5);
    expect(drops.next(of)).toBeNull();
    version = 5;
    expect(drops.next(of)).toBe(CAR);
    version = 6;
    drops.undone(of);
    expect(drops.next(of)).toBe(CAR);
    version = 7;
    expect(drops.next(of)).toBeNull();
  });

  it('is left alone where somebody typed between two drops, or closed the text', () => {
    const drops = new Drops();
    drops.wrote(CAR, 3, 4);
    drops.wrote(CAR, 6, 7);
    drops.undone(() => 8);
    expect(drops.next(() => 8)).toBeNull();
    expect(drops.next(() => null)).toBeNull();
  });
});
