/** Fixes that write a fact or a statement: loose ends, near misses, bores that cannot breathe, waivers. */
import type { PlacedFinding } from '../../grammar/finding';
import type { Node, Tube } from '../cage/cage';
import { absolute, addBeside, addFact, addLast, nameOn, thingOf, writtenOf, writtenSide } from './edit';
import type { FixContext, FixOffer, Fixer, TextEdit } from './fix';

const some = (edit: TextEdit | null): readonly TextEdit[] => (edit === null ? [] : [edit]);

const text = (finding: PlacedFinding, name: string): string | null => {
  const value = finding.params[name];
  return typeof value === 'string' && value !== '' ? value : null;
};

/** The whole tube of a part's name: a piece of a split is written where its tube is. */
const tubeNamed = (context: FixContext, name: string): Tube | null => {
  const thing = thingOf(context.cage, name) ?? thingOf(context.cage, name.replace(/\.[ab]$/, ''));
  return thing?.kind === 'tube' ? thing : null;
};

const nodeNamed = (context: FixContext, name: string): Node | null => {
  const thing = thingOf(context.cage, name);
  return thing?.kind === 'node' ? thing : null;
};

/** `open`: an end that touches nothing on purpose. */
export const openEnd: Fixer = (finding, context) => {
  const end = text(finding, 'end');
  const tube = tubeNamed(context, finding.subject);
  if (end === null || tube === null) return [];
  return [
    {
      id: 'end.open',
      title: `Leave it open: ${end} open`,
      preferred: false,
      edits: () => some(addFact(context, tube.origin, `${end} open`)),
    },
  ];
};

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
  if (node !== null && hostTube !== null) {
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
  offers.push({
    id: 'place.write-onto',
    title: `The offset is meant: ${end} onto ${named}`,
    preferred: false,
    edits: () => some(addFact(context, tube.origin, `${end} onto ${named}`)),
  });
  return offers;
};

/** The host as it is named on the side that the node is written for: a finding of the twin names the twin's host. */
function sameSide(context: FixContext, host: string, tube: Tube, node: Node): string {
  return tube.twin && !node.twin ? mirrorName(context, host) : host;
}

const mirrorName = (context: FixContext, name: string): string => {
  const thing = context.cage.things.get(name);
  if (thing === undefined || thing.side === null) return name;
  return `${thing.base}.${thing.side === 'left' ? 'right' : 'left'}`;
};

/** `node a = PLACE` becomes `node a = on HOST nearest PLACE`: the point of the host that is nearest to where it was. */
function moveOnto(node: Node, host: string): readonly TextEdit[] {
  const arg = node.origin.entry.line.groups[0]?.args[0];
  if (arg === undefined) return [];
  const { start } = absolute(node.origin, arg.span);
  return [{ file: node.origin.file, span: { start, end: start }, newText: `on ${host} nearest ` }];
}

/** A length as it is written into a file: bare in a file in millimetres, else with its unit. */
const written = (context: FixContext, file: string, value: unknown): string | null => {
  if (typeof value !== 'object' || value === null || !('value' in value) || typeof value.value !== 'number')
    return null;
  const digits = String(Math.round(value.value * 10) / 10);
  return unitOf(context, file) === 'mm' ? digits : `${digits} mm`;
};

/** The `units` line of a file. */
const unitOf = (context: FixContext, file: string): string => {
  const line = context.trees.get(file)?.statements.find((s) => s.tree.entry.line.word.text === 'units');
  const word = line?.tree.entry.line.groups[0]?.args[0];
  return word?.kind === 'ref' ? (word.names[0]?.text ?? 'mm') : 'mm';
};

/**
 * `space.unvented`: the vent line that is missing, in the same block as the joint that closes the bore: inside mirror,
 * where that is, so that the other side breathes too.
 */
export const addVent: Fixer = (finding, context) =>
  finding.fixes.flatMap((fix, i): readonly FixOffer[] => {
    const { tube: child, host, node: nodeName, from, dia } = fix.data;
    if (fix.id !== 'vent.add' || typeof child !== 'string' || typeof host !== 'string' || typeof nodeName !== 'string')
      return [];
    const tube = tubeNamed(context, child);
    const node = nodeNamed(context, writtenOf(context.cage, nodeName));
    if (tube === null || node === null) return [];
    const flipped = node.name !== nodeName;
    const side = writtenSide(node);
    const named = (name: string): string => nameOn(context.cage, flipped ? mirrorName(context, name) : name, side);
    const { file } = node.origin;
    const names = { child: named(child), host: host === 'air' ? 'air' : named(host), node: named(nodeName) };
    const facts = [
      `at ${names.node}`,
      ...(host === 'air' ? [`from ${written(context, file, from) ?? '30 mm'}`, 'clock 180'] : []),
      `dia ${written(context, file, dia) ?? '5 mm'}`,
      ...(host === 'air' ? ['plug weld'] : []),
    ];
    const line = `vent ${names.child} -> ${names.host} { ${facts.join('; ')} }`;
    return [
      {
        id: `vent.add.${String(i)}`,
        title:
          host === 'air' ? `Vent ${names.child} to the air` : `Vent ${names.child} into ${names.host} at ${names.node}`,
        preferred: i === 0,
        edits: () => some(addBeside(context, node.origin, line)),
      },
    ];
  });

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
 * `place.bend-corner`: a new node on the leg beside the bend, and the tube set on that. Far enough for the tube's whole
 * width to stand on the leg.
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
  const away = Math.ceil((tube.section?.od ?? 0) / TENS) * TENS + TENS;
  const distance = written(context, tube.origin.file, { value: away, unit: 'mm' });
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

/** The name under which a thing's finding is waived: a vent has none of its own and goes by its tube's. */
function waivedAs(context: FixContext, subject: string): string | null {
  const thing = thingOf(context.cage, subject) ?? thingOf(context.cage, subject.replace(/\.[ab]$/, ''));
  if (thing?.kind === 'vent') return thing.tube;
  return thing === undefined || thing.name.includes(':') ? null : subject;
}

/** `waive … because "…"`, at the end of the judged file: only there a waiver counts. */
export const waiveIt: Fixer = (finding, context) => {
  const subject = waivedAs(context, finding.subject);
  if (finding.waived || subject === null) return [];
  const book = finding.rule === undefined ? '' : `${finding.rule.book} `;
  const end = text(finding, 'end');
  const at = end === 'first' || end === 'last' ? ` ${end}` : '';
  const line = `waive ${book}${finding.code} on ${subject}${at} because "reason not written yet"`;
  return [
    {
      id: 'waive',
      title: `Waive ${finding.code} on ${subject}`,
      preferred: false,
      edits: () => some(addLast(context, context.cage.file, line)),
    },
  ];
};
