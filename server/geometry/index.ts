/** The door to the shape of a cage: everything that is computed of its geometry, once. */
import type { Finding } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { bendFindings } from './bends';
import type { Body } from './bodies';
import { bodiesOf } from './bodies';
import { Changes } from './changes';
import { clashesOf, clashFindings } from './clash';
import type { EndCut } from './cutting';
import { cutEnds } from './cutting';
import { copeFindings, emptyFeet, landingFindings, orderFindings, runOnFindings } from './end-findings';
import { feetFindings, standingOn } from './feet';
import { fittingFindings } from './fittings';
import { holeFindings } from './holes';
import { jointsOf } from './joints';
import { kindsOf } from './kinds';
import { landingsOf } from './landing';
import { Surroundings } from './surroundings';
import { Neighbours } from './neighbours';
import type { MadePart } from './parts';
import { madePart, massOf } from './parts';
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
  const { last } = cache;
  const kinds = kindsOf(cage);
  const bodies = bodiesOf(cage, cache.geometries, last?.bodies ?? null, kinds);
  const changes = last === null ? null : new Changes(last.bodies, bodies);
  const around = last?.around ?? new Surroundings(bodies.all);
  if (changes !== null) around.exchange(bodies.all, changes.gone, changes.fresh);
  const landed = last === null || changes === null ? null : { landings: last.cuts.landings, changes };
  const landings = landingsOf(bodies, around, landed);
  const joints = jointsOf(cage, bodies, landings, around, kinds);
  const sameJoints = last !== null && last.said === joints.said;
  const all = cutEnds(bodies, landings, joints, cache, sameJoints ? last.cuts : null);
  const { cuts } = all;
  const made = new Map<Body, MadePart>();
  const parts = new Map<string, Part>();
  for (const body of bodies.all) {
    const part = madePart(body, bodies, cuts, last?.parts.get(body));
    made.set(body, part);
    parts.set(body.name, part.part);
  }
  const clashes = clashesOf(bodies, around, cuts, cache, last?.clashes ?? null);
  const ofEnds = new Map<EndCut, readonly Finding[]>();
  for (const cut of cuts.values()) ofEnds.set(cut, last?.ofEnds.get(cut) ?? copeFindings(cut));

  const bends: (readonly Finding[])[] = [];
  for (const tube of kinds.tubes) {
    const told = (): readonly Finding[] => bendFindings(tube, tube.path.map(bodies.nodeAt));
    // A tube without a centreline does not tell where its nodes are.
    bends.push(tube.centreline === null ? told() : cache.bends.get(tube.name, [tube], told));
  }
  const onFeet = standingOn(cage, parts);
  const straps = strapsOf(cage, parts, cache.straps, kinds);
  const neighbours = last?.neighbours ?? new Neighbours(parts.values());
  neighbours.exchange(parts.values());
  const { seats } = seatsOf(cage, parts, straps.straps, neighbours, cache.seats, kinds);
  const { spaces, findings: ofSpaces } = spacesOf(cage, parts, onFeet, neighbours, cache.spaces, kinds);
  const findings: readonly (readonly Finding[])[] = [
    joints.findings,
    ...bends,
    landingFindings(bodies, cuts, around, cache.hostEnds),
    ...ofEnds.values(),
    orderFindings(cuts),
    runOnFindings(cuts),
    clashFindings(clashes),
    emptyFeet(bodies, cuts),
    feetFindings(cage, onFeet, cache.feet),
    straps.findings,
    ofSpaces,
    holeFindings(kinds.holes, parts),
    fittingFindings(kinds, parts, neighbours),
  ];
  cache.end({
    bodies: { all: bodies.all, ofTube: bodies.ofTube, standing: bodies.standing, footOf: bodies.footOf },
    around,
    neighbours,
    said: joints.said,
    cuts: all,
    parts: made,
    clashes,
    ofEnds,
  });
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
