/** Copes per second, beside the mesh boolean of a general-purpose solid-modelling library on the same joints. */
import { performance } from 'node:perf_hooks';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, cross, unit } from '../../server/centreline/vector';
import { cope } from '../../server/geometry/cope';
import type { ChildEnd, TubeHost } from '../../server/geometry/setback';
import { between, bentOnce, endOf, leaning, line, pointAt, random, through } from '../geometry/joint-maker';
import { childSolid, cutEdge, HOST_FACETS, solids, tubeSolid } from '../geometry/solid-bodies';

interface Joint {
  readonly child: ChildEnd;
  readonly host: TubeHost;
}

const straightJoint = (roll: () => number): Joint => {
  const host = line([
    [-300, 0, 0],
    [300, 0, 0],
  ]);
  const away = leaning(roll, [1, 0, 0], between(roll, 0.7, 1.57));
  const aside = unit(cross([1, 0, 0], away));
  const origin = addScaled([0, 0, 0] as Vec3, aside, between(roll, -3, 3));
  return { child: endOf(origin, away, 19, 2.5, 400), host: through(host, 22.5, 300) };
};

const bendJoint = (roll: () => number): Joint => {
  const host = bentOnce(roll, 135);
  const station = host.length * between(roll, 0.4, 0.6);
  const at = pointAt(host, station);
  return {
    child: endOf(at.point, leaning(roll, at.tangent, between(roll, 0.8, 1.57)), 19, 2.5, 400),
    host: through(host, 22.5, station),
  };
};

const rate = (joints: readonly Joint[], work: (joint: Joint) => void): number => {
  joints.slice(0, Math.ceil(joints.length / 10)).forEach(work);
  const start = performance.now();
  joints.forEach(work);
  return (joints.length * 1000) / (performance.now() - start);
};

export async function measureCopes(quick: boolean): Promise<readonly (readonly string[])[]> {
  const roll = random(7);
  const count = quick ? 200 : 1000;
  const straight = Array.from({ length: count }, () => straightJoint(roll));
  const bends = Array.from({ length: count }, () => bendJoint(roll));
  const wasm = await solids();
  const boolean = (joint: Joint): void => {
    const tube = childSolid(wasm, joint.child, 90, 170);
    const host = tubeSolid(
      wasm,
      joint.child,
      joint.host.centreline,
      joint.host.radius,
      0,
      joint.host.centreline.length,
    );
    cutEdge(joint.child, tube, host, 170);
    tube.delete();
    host.delete();
  };
  const own = (joint: Joint): void => {
    // Everything that there is to know of it, also what otherwise waits until somebody asks.
    const { ordinates, saddleLength, maxGap } = cope(joint.child, [joint.host]);
    if (ordinates.length === 0 && saddleLength === maxGap) throw new Error('a joint without figures');
  };
  const rows: string[][] = [];
  for (const [name, joints] of [
    ['on straight hosts', straight],
    ['on bends', bends],
  ] as const) {
    const ours = rate(joints, own);
    const peer = rate(joints.slice(0, quick ? 20 : 60), boolean);
    rows.push([`${name}: computed`, String(joints.length), ours.toFixed(0), `${(ours / peer).toFixed(0)} : 1`]);
    rows.push([`${name}: mesh boolean, ${HOST_FACETS} facets`, String(quick ? 20 : 60), peer.toFixed(0), '1']);
  }
  return rows;
}
