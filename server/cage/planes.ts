/** A plane of the car from its statement. */
import type { Vec3 } from '../centreline/vector';
import type { Page } from './page';
import type { FlatPlane } from './solved';

const RIGHT_ANGLE = 90;

/** Null where its point or its lean is not known. */
export function planeFrom(page: Page): FlatPlane | null {
  const at = page.place('at');
  const runs = page.word('runs', 'runs') === 'along' ? 'along' : 'across';
  const upright = page.fact('leans') === null || page.has('leans', 'upright');
  const up: Vec3 | null = upright ? [0, 0, 1] : leaned(page, runs, at);
  if (at === null || up === null || page.broken('leans') || page.broken('runs')) return null;
  return { at, runs, first: runs === 'across' ? [0, 1, 0] : [1, 0, 0], up };
}

/** Up along a plane that leans: about the car's y where it runs across, about its x where it runs along. */
function leaned(page: Page, runs: 'across' | 'along', at: Vec3 | null): Vec3 | null {
  const lean = page.angle('leans', 'lean', RIGHT_ANGLE);
  const toward = page.bound('leans', 'toward');
  if (lean === null || toward === null || toward.word === null) return null;
  const [sin, cos] = [Math.sin(lean), Math.cos(lean)];
  const lengthwise = toward.word === 'aft' || toward.word === 'forward';
  if (lengthwise !== (runs === 'across')) {
    const wanted =
      runs === 'across' ? 'aft or forward: the plane runs across the car' : 'out or in: the plane runs along the car';
    return page.tell(toward.arg.span, 'fact.value', { fact: 'leans', wanted });
  }
  if (lengthwise) return [toward.word === 'forward' ? sin : -sin, 0, cos];
  const left = page.leftward(toward.word, at, toward.arg.span);
  return left === null ? null : [0, left * sin, cos];
}
