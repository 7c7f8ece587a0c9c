/** Fixes that write a fact or a statement: loose ends, bores that cannot breathe, waivers. */
import { REASON_TO_WRITE } from '../cage/waivers';
import { addBeside, addFact, addLast, nameOn, thingOf, writtenOf, writtenSide } from './edit';
import type { FixContext, FixOffer, Fixer } from './fix';
import { mirrorName, nodeNamed, some, text, tubeNamed, written } from './lookup';

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
    const under = typeof fix.data['foot'] === 'string' ? thingOf(context.cage, fix.data['foot']) : undefined;
    if (under?.kind === 'foot') {
      const fact = `hole ${written(context, under.origin.file, fix.data['hole'], 'nearest') ?? '8 mm'}`;
      return [
        {
          id: `vent.foot.${String(i)}`,
          title: `Vent ${nameOn(context.cage, child, writtenSide(under))} through the plate of ${under.base}: ${fact}`,
          preferred: i === 0,
          edits: () => some(addFact(context, under.origin, fact)),
        },
      ];
    }
    const flipped = node.name !== nodeName;
    const side = writtenSide(node);
    const named = (name: string): string => nameOn(context.cage, flipped ? mirrorName(context, name) : name, side);
    const { file } = node.origin;
    const names = { child: named(child), host: host === 'air' ? 'air' : named(host), node: named(nodeName) };
    const facts = [
      `at ${names.node}`,
      ...(host === 'air' ? [`from ${written(context, file, from, 'up') ?? '30 mm'}`, 'clock 180'] : []),
      `dia ${written(context, file, dia, 'nearest') ?? '5 mm'}`,
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

/** The name under which a thing's finding is waived: a vent, a hole, padding have none of their own and go by their tube's. */
function waivedAs(context: FixContext, subject: string): string | null {
  const thing = thingOf(context.cage, subject) ?? thingOf(context.cage, subject.replace(/\.[ab]$/, ''));
  if (thing?.kind === 'vent' || thing?.kind === 'hole' || thing?.kind === 'padding') {
    const { tube } = thing;
    // A finding of both sides is waived on both: by the name without its side.
    const both = thing.side !== null && subject === thing.base;
    return both && tube !== null ? (context.cage.things.get(tube)?.base ?? tube) : tube;
  }
  return thing === undefined || thing.name.includes(':') ? null : subject;
}

/** `waive … because "…"`, at the end of the judged file: only there a waiver counts. */
export const waiveIt: Fixer = (finding, context) => {
  const subject = waivedAs(context, finding.subject);
  if (finding.waived || subject === null) return [];
  const book = finding.rule === undefined ? '' : `${finding.rule.book} `;
  const end = text(finding, 'end');
  const at = end === 'first' || end === 'last' ? ` ${end}` : '';
  const line = `waive ${book}${finding.code} on ${subject}${at} because "${REASON_TO_WRITE}"`;
  return [
    {
      id: 'waive',
      title: `Waive ${finding.code} on ${subject}${at === '' ? '' : `,${at} end`}`,
      preferred: false,
      edits: () => some(addLast(context, context.cage.file, line)),
    },
  ];
};
