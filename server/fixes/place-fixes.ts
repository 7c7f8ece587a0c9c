/** Fixes of places: nodes beside a tube, on the corner of a bend, beside a line or a plane that was meant. */
import type { PlacedFinding } from '../../grammar/finding';
import type { Node, Tube } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, distance, dot, sub, unit } from '../centreline/vector';
import { absolute, addBeside, addFact, nameOn, thingOf, writtenOf, writtenSide } from './edit';
import type { FixContext, FixOffer, Fixer, TextEdit } from './fix';
import { hangsOn, mirrorName, nodeNamed, some, text, tubeNamed, unitOf, written } from './lookup';

/** The node at the end of a tube; null where the path's end is no node that is known. */
const endNode = (context: FixContext, tube: Tube, end: string): Node | null => {
  const name = end === 'first' ? tube.path[0] : tube.path[tube.path.length - 1];
  return name === null || name === undefined ? null : nodeNamed(context, writtenOf(context.cage, name));
};

/** `place.near-miss`: move the node onto the centreline, or say that the offset is meant. */
export const nearMiss: Fixer = (finding, context) => {
  const end = text(finding, 'end');
  const host = text(finding, 'host');
  const tube = tubeNamed(context, finding.subject);
  if (end === null || host === null || tube === null) return [];
  const offers: FixOffer[] = [];
  const hostTube = tubeNamed(context, host);
  const node = endNode(context, tube, end);
  if (node !== null && hostTube !== null && !hangsOn(context, hostTube.base, node.base)) {
    const hostName = nameOn(context.cage, sameSide(context, hostTube.name, tube, node), writtenSide(node));
    offers.push({
      id: 'place.move-onto',
      title: `Move ${node.base} onto the centreline of ${hostName}`,
      preferred: true,
      edits: () => moveOnto(node, hostName),
    });
  }
  const side = writtenSide(tube);
  const named = nameOn(context.cage, hostTube?.name ?? host, side);
  if (overhangs(finding, tube, hostTube)) return offers;
  offers.push({
    id: 'place.write-onto',
    title: `The offset is meant: ${end} onto ${named}`,
    preferred: false,
    edits: () => some(addFact(context, tube.origin, `${end} onto ${named}`)),
  });
  return offers;
};

/** An end beside its host's axis that cannot be cut as it stands: move its node onto the axis. */
export const ontoAxis: Fixer = (finding, context) =>
  nearMiss(finding, context).filter(({ id }) => id === 'place.move-onto');

/** More than this past the side of a host is an overhang, mm: what a generator may miss it by. */
const CLOSEST = 0.5;

/** True where a tube set so far beside the middle of its host would hang over its side: nobody can mean that. */
function overhangs(finding: PlacedFinding, tube: Tube, host: Tube | null): boolean {
  const beside = finding.measured?.value;
  if (beside === undefined || tube.section === null || !host?.section) return false;
  return beside + tube.section.od / 2 > host.section.od / 2 + CLOSEST;
}

/** The host as it is named on the side that the node is written for: a finding of the twin names the twin's host. */
function sameSide(context: FixContext, host: string, tube: Tube, node: Node): string {
  return tube.twin && !node.twin ? mirrorName(context, host) : host;
}

/** `node a = PLACE` becomes `node a = on HOST nearest PLACE`: the point of the host that is nearest to where it was. */
function moveOnto(node: Node, host: string): readonly TextEdit[] {
  const arg = node.origin.entry.line.groups[0]?.args[0];
  if (arg === undefined) return [];
  const { start } = absolute(node.origin, arg.span);
  return [{ file: node.origin.file, span: { start, end: start }, newText: `on ${host} nearest ` }];
}

/** `place.several`: one offer for each place where the tube is. */
export const nearOne: Fixer = (finding) => {
  const { places, mend } = finding.params;
  if (!Array.isArray(places) || typeof mend !== 'string' || !mend.includes('near P')) return [];
  const { file, span } = finding.place;
  return places.map((place: string, i) => ({
    id: `place.near.${String(i)}`,
    title: `Take the one near ${place}`,
    preferred: false,
    edits: () => [{ file, span: { start: span.end, end: span.end }, newText: ` near ${place}` }],
  }));
};

/** Distances from a bend are written in tens of millimetres. */
const TENS = 10;

/**
 * `place.bend-corner`: a new node on the leg beside the bend, and the tube set on that. Far enough for the
 * whole joint to stand on the leg, and its weld clear of the bend.
 */
export const besideCorner: Fixer = (finding, context) => {
  const end = text(finding, 'end');
  const host = text(finding, 'tube');
  const corner = text(finding, 'node');
  const named = tubeNamed(context, finding.subject);
  if (end === null || host === null || corner === null || named === null) return [];
  const tube = tubeNamed(context, writtenOf(context.cage, named.name));
  const items = tube?.origin.entry.block?.entries.find(({ line }) => line.word.text === 'path')?.line.groups;
  const item = items?.[end === 'first' ? 0 : items.length - 1];
  if (tube === null || item === undefined) return [];
  const side = writtenSide(tube);
  const onSide = (name: string): string =>
    nameOn(context.cage, named.name === tube.name ? name : mirrorName(context, name), side);
  const wide = (tube.section?.od ?? 0) + (tubeNamed(context, host)?.section?.od ?? 0);
  const away = Math.max(1, Math.ceil(wide / TENS)) * TENS;
  const distance = written(context, tube.origin.file, { value: away, unit: 'mm' }, 'up');
  const node = freshName(context, `${tube.base}-${end}`);
  return ['before', 'after'].map((word) => ({
    id: `place.${word}-corner`,
    title: `Set it ${distance ?? ''} ${word} the bend: node ${node}`,
    preferred: false,
    edits: () => [
      { file: tube.origin.file, span: absolute(tube.origin, item.span), newText: node },
      ...some(
        addBeside(
          context,
          tube.origin,
          `node ${node} = on ${onSide(host)} at ${distance ?? ''} ${word} ${onSide(corner)}`,
        ),
      ),
    ],
  }));
};

/** The name, with a number behind it if it is taken. */
function freshName(context: FixContext, name: string): string {
  const taken = (wanted: string): boolean => thingOf(context.cage, wanted) !== undefined;
  if (!taken(name)) return name;
  let n = 2;
  while (taken(`${name}-${String(n)}`)) n++;
  return `${name}-${String(n)}`;
}

/** The neighbours of a corner on the written tube's path, as nodes; null where one of them is not known. */
function around(context: FixContext, tube: Tube, corner: string): { before: Node; at: Node; after: Node } | null {
  const index = tube.path.findIndex((name) => name === corner);
  const [before, at, after] = [index - 1, index, index + 1].map((i) => {
    const name = index < 0 ? null : tube.path[i];
    return name === null || name === undefined ? null : nodeNamed(context, name);
  });
  return before && at && after ? { before, at, after } : null;
}

/** The tube and corner that a bend's finding is about, as they are written; a finding of the twin alone has none. */
function bendOf(context: FixContext, subject: string, corner: string): { tube: Tube; corner: string } | null {
  const tube = tubeNamed(context, subject);
  if (tube === null || tube.twin) return null;
  return { tube, corner: thingOf(context.cage, corner)?.name ?? corner };
}

/** The value that places a node, replaced; nothing where the node is no statement of its own. */
function placedAnew(node: Node, place: string): readonly TextEdit[] {
  const group = node.origin.entry.line.groups[0];
  return group === undefined
    ? []
    : [{ file: node.origin.file, span: absolute(node.origin, group.span), newText: place }];
}

/** Digits of a millimetre beyond which nobody can read a coordinate. */
const tenth = (value: number): number => Math.round(value * 10) / 10;

/** `bend.tiny`: the node goes onto the straight line between its neighbours, as far along as it is. */
export const straighten: Fixer = (finding, context) => {
  const found = bendOf(context, finding.subject, text(finding, 'node') ?? '');
  const nodes = found === null ? null : around(context, found.tube, found.corner);
  if (nodes === null) return [];
  const { before, at, after } = nodes;
  if (at.twin || before.at === null || at.at === null || after.at === null) return [];
  if (hangsOn(context, before.base, at.base) || hangsOn(context, after.base, at.base)) return [];
  const way = unit(sub(after.at, before.at));
  const along = tenth(dot(sub(at.at, before.at), way));
  if (along <= 0 || along >= distance(before.at, after.at)) return [];
  const side = writtenSide(at);
  const [from, to] = [before, after].map((node) => nameOn(context.cage, node.name, side));
  const how = written(context, at.origin.file, { value: along, unit: 'mm' }) ?? '';
  return [
    {
      id: 'place.straighten',
      title: `Put ${at.base} on the line from ${from ?? ''} to ${to ?? ''}`,
      preferred: true,
      edits: () => placedAnew(at, `between ${from ?? ''} and ${to ?? ''} at ${how}`),
    },
  ];
};

/** Coordinates that put a bend into a plane have to be exact to far below what is shown. */
const EXACT = 1e9;
const exact = (value: number): string => {
  const rounded = Math.round(value * EXACT) / EXACT;
  return (rounded === 0 ? 0 : rounded).toFixed(9).replace(/\.?0+$/, '');
};

/** `bend.rotation-tiny`: the node behind the bend goes into the plane of the bend before. */
export const intoPlane: Fixer = (finding, context) => {
  const found = bendOf(context, finding.subject, text(finding, 'node') ?? '');
  const nodes = found === null ? null : around(context, found.tube, found.corner);
  const first = found === null || nodes === null ? null : around(context, found.tube, nodes.before.name);
  if (nodes === null || first === null) return [];
  const { before, at, after } = nodes;
  // A node that lies on a tube would leave it.
  if (after.twin || after.on !== null || after.at === null || at.at === null || before.at === null) return [];
  if (first.before.at === null) return [];
  const normal = unit(cross(sub(before.at, first.before.at), sub(at.at, before.at)));
  const into: Vec3 = addScaled(after.at, normal, -dot(sub(after.at, at.at), normal));
  const unitWord = unitOf(context, after.origin.file) === 'mm' ? '' : ' mm';
  const place = `(${into.map((value) => `${exact(value)}${unitWord}`).join(', ')})`;
  return [
    {
      id: 'place.into-plane',
      title: `Move ${after.base} by ${String(tenth(distance(into, after.at)))} mm into the plane of the bend before`,
      preferred: true,
      edits: () => placedAnew(after, place),
    },
  ];
};
