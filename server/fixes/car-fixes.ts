/** Fixes that write a fact or a statement: loose ends, near misses, bores that cannot breathe, waivers. */
import type { PlacedFinding } from '../../grammar/finding';
import { UNITS } from '../../grammar/units';
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

/** A hole that lets a bore breathe, mm: 5 where the bore has room for it, less in a thin tube. */
const VENT = 5;
const VENT_INCH = 3 / 16;

const ventDia = (context: FixContext, file: string): string => {
  const units = context.trees.get(file)?.statements.find((s) => s.tree.entry.line.word.text === 'units');
  const word = units?.tree.entry.line.groups[0]?.args[0];
  const unit = word?.kind === 'ref' ? (word.names[0]?.text ?? 'mm') : 'mm';
  if (unit === 'in') return '3/16';
  if (unit === 'ft') return `${String(VENT_INCH)} in`;
  const factor = UNITS[unit]?.factor ?? 1;
  return factor === 1 ? String(VENT) : `${String(VENT)} mm`;
};

/** `space.unvented`: the vent line that is missing, in the same block as the joint that closes the bore. */
export const addVent: Fixer = (finding, context) =>
  finding.fixes.flatMap((fix, i): readonly FixOffer[] => {
    const { tube: child, host, node: nodeName } = fix.data;
    if (fix.id !== 'vent.add' || typeof child !== 'string' || typeof host !== 'string' || typeof nodeName !== 'string')
      return [];
    const tube = tubeNamed(context, child);
    const node = nodeNamed(context, nodeName);
    if (tube === null || node === null) return [];
    const beside = ventPlace(context, tube);
    const side = beside.side;
    const names = [child, host, node.name].map((name) => nameOn(context.cage, name, side));
    const [from = child, to = host, at = nodeName] = names;
    const line = `vent ${from} -> ${to} { at ${at}; dia ${ventDia(context, beside.origin.file)} }`;
    return [
      {
        id: `vent.add.${String(i)}`,
        title: `Vent ${from} into ${to} at ${at}`,
        preferred: i === 0,
        edits: () => some(addBeside(context, beside.origin, line)),
      },
    ];
  });

/**
 * Where a vent is written: with the tube, if that exists twice, so that its twin breathes too; a tube that exists once
 * needs one hole only, even where both its ends are twins.
 */
function ventPlace(context: FixContext, tube: Tube): { origin: Tube['origin']; side: 'left' | 'right' | null } {
  const written = thingOf(context.cage, writtenOf(context.cage, tube.name));
  if (tube.side === null || written === undefined) return { origin: tube.origin, side: null };
  return { origin: written.origin, side: writtenSide(written) };
}

/** `waive … because "…"`, at the end of the judged file: only there a waiver counts. */
export const waiveIt: Fixer = (finding, context) => {
  if (finding.waived || finding.subject === '') return [];
  const book = finding.rule === undefined ? '' : `${finding.rule.book} `;
  const end = text(finding, 'end');
  const at = end === 'first' || end === 'last' ? ` ${end}` : '';
  const line = `waive ${book}${finding.code} on ${finding.subject}${at} because "reason not written yet"`;
  return [
    {
      id: 'waive',
      title: `Waive ${finding.code} on ${finding.subject}`,
      preferred: false,
      edits: () => some(addLast(context, context.cage.file, line)),
    },
  ];
};
