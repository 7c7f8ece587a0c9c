/** The door to the shape of a cage: everything that is computed of its geometry, once. */
import type { Finding } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { bendFindings } from './bends';
import { bodiesOf } from './bodies';
import { clashFindings } from './clash';
import { cutEnds } from './cutting';
import { emptyFeet, endFindings, orderFindings, runOnFindings } from './end-findings';
import { feetFindings, standingOn } from './feet';
import { jointsOf } from './joints';
import { landingsOf, Surroundings } from './landing';
import { Neighbours } from './neighbours';
import { massOf, partOf } from './parts';
import { seatsOf } from './seats';
import type { Part, Shape } from './shape';
import { ShapeCache } from './shape-cache';
import { spacesOf } from './spaces';
import { strapsOf } from './straps';

export { ShapeCache } from './shape-cache';

/**
 * The shape of a cage. Pure but for the cache, which only saves work: with it or without it the figures are the same.
 * Never throws; what cannot be computed is null, and told.
 */
export function shapeOf(cage: Cage, cache: ShapeCache = new ShapeCache()): Shape {
  cache.begin();
  const bodies = bodiesOf(cage, cache.geometries);
  const around = new Surroundings(bodies.all);
  const landings = landingsOf(bodies, around);
  const joints = jointsOf(cage, bodies, landings, around);
  const cuts = cutEnds(bodies, landings, joints, cache);
  const parts = new Map<string, Part>();
  for (const body of bodies.all) parts.set(body.name, partOf(body, bodies, cuts));

  const bends = [...bodies.ofTube.values()].map(([body]) =>
    body === undefined ? [] : bendFindings(body.tube, body.tube.path.map(bodies.nodeAt)),
  );
  const onFeet = standingOn(cage, parts);
  const straps = strapsOf(cage, parts);
  const neighbours = new Neighbours(parts.values());
  const { seats } = seatsOf(cage, parts, straps.straps, neighbours);
  const { spaces, findings: ofSpaces } = spacesOf(cage, parts, onFeet, neighbours);
  const findings: readonly (readonly Finding[])[] = [
    joints.findings,
    ...bends,
    endFindings(bodies, cuts, around),
    orderFindings(cuts),
    runOnFindings(cuts),
    clashFindings(bodies, cuts, joints, cache),
    emptyFeet(bodies, cuts),
    feetFindings(cage, onFeet),
    straps.findings,
    ofSpaces,
  ];
  cache.end();
  return {
    cage,
    parts,
    seats,
    straps: straps.straps,
    spaces,
    mass: massOf(parts.values()),
    findings: findings.flat(),
  };
}
