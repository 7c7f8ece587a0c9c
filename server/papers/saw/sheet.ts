/** What a saw does to both ends of one part, as a piece of a page. */
import { sayMeasure } from '../../../grammar/print';
import type { LengthUnit } from '../../../grammar/units';
import { degrees } from '../../../grammar/units';
import { svgElement } from '../../drawing/svg';
import type { End, Part } from '../../geometry/shape';
import type { Markup } from '../html';
import { element, join, paragraph, raw, table, terms, words } from '../html';
import { fineOnTape, fromBend, noLess, onTape } from '../on-tape';
import { endLabel, endSign } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import type { CopeStart, HeldCut, Hold, KnownStarts, PlainSaw } from './figures';
import { reachOf, sawnFigures } from './figures';
import { copeSketch } from './sketch';
import { markFromBend, markFromEnd } from './tape';

/** A difference that nobody grinds, mm. */
const LESS = 0.3;

const angleWords = (angle: number): string => sayMeasure({ value: degrees(angle), unit: 'deg' }, 'mm');

/** `90°, 35.3 mm (1 13/32 in) round from TOP`. */
function clockWords(clock: number | null, end: End, od: number | null, units: LengthUnit): string {
  if (clock === null) return 'all round';
  const zero = end.clockZero?.name ?? '0°';
  const round =
    od === null || clock < 1e-9 ? '' : `, ${fineOnTape((clock * od) / 2, units, Math.round)} round from ${zero}`;
  return `${angleWords(clock)}${clock < 1e-9 ? ` (${zero})` : round}`;
}

/** The bend nearest to an end. */
const bendOf = (part: Part, end: End): string => `bend ${String(end.which === 'first' ? 1 : part.bends.length)}`;

/**
 * How the line from which the clock counts is found on a tube that lies on the bench: TOP means nothing there. Of a bent
 * tube by its nearest bend; of a straight one both ends have one line.
 */
export function zeroWords(part: Part, end: End, units: LengthUnit): string {
  const name = end.clockZero?.name ?? 'clock 0';
  const od = part.tube.section?.od ?? null;
  const inside = end.bendInsideClock;
  if (inside === null || od === null)
    return `one straight line along the whole tube, drawn before anything is cut: both ends are laid out from it. In the car it is the ${name === 'FRONT' ? 'front' : 'top'} of the tube.`;
  const round = inside < 1e-9 ? '' : `, ${fineOnTape((inside * od) / 2, units, Math.round)} round from ${name}`;
  return `the inside of ${bendOf(part, end)} stands at clock ${angleWords(inside)}${round}: set ${name} off from there. The other end has a line of its own.`;
}

export function holdWords({ straight, upTo, vice, holds }: Hold, units: LengthUnit): string {
  if (straight === null) return 'not known';
  const to = upTo === 'bend' ? 'to the bend' : 'to the other end';
  if (straight <= 0) return `no: the cut runs ${upTo === 'bend' ? 'into the bend' : 'into the other end'}`;
  if (vice === null || holds === null)
    return `${onTape(straight, units)} straight ${to}; what the vice needs is not told: write it as saw { vice 120 mm }`;
  if (holds) return `yes: ${onTape(straight, units)} straight ${to}, it needs ${onTape(vice, units)}`;
  return `NO: ${onTape(straight, units)} straight ${to}, it needs ${onTape(vice, units)}; ${onTape(vice - straight, units)} too little`;
}

/** How the blade lies: where it comes out on the other side, and which way. */
function leanWords({ cut }: HeldCut, start: CopeStart, units: LengthUnit): string {
  if (cut.deepClock === null) return 'square across';
  const other = cut.shallow - start.coped.minCut;
  const clock = (cut.deepClock + Math.PI) % (2 * Math.PI);
  const where =
    other >= 0 ? `comes out ${markFromEnd(other, units)} from the long point` : 'has left the tube through its end';
  return `toward the end: on the other side, at ${angleWords(clock)}, it ${where}`;
}

const bendWords = (fromBend: number | null, units: LengthUnit): string =>
  fromBend === null
    ? 'no bend'
    : fromBend >= 0
      ? markFromBend(fromBend, units)
      : `${markFromEnd(-fromBend, units)} past where it begins, in the bend`;

function cutTable(start: CopeStart, od: number | null, units: LengthUnit): Markup {
  return table(
    start.cuts.length === 1
      ? 'The cut'
      : 'The cuts, in this order: draw both marks first, the second cut may take the first one away',
    [
      ['Cut', 6],
      ['Saw off square', 11],
      ['Mark at clock', 17],
      ['Mark from the long point', 15],
      ['Or from the bend', 15],
      ['The blade leans', 18],
      ['Does the vice hold it?', 18],
    ],
    start.cuts.map((held, i) => ({
      cells: [
        words(String(i + 1)),
        element('b', {}, words(angleWords(held.cut.angle))),
        element('b', {}, words(clockWords(held.cut.deepClock, start.end, od, units))),
        element('b', {}, words(markFromEnd(held.cut.fromLongPoint, units))),
        words(bendWords(held.fromBend, units)),
        words(leanWords(held, start, units)),
        words(holdWords(held.hold, units)),
      ],
    })),
  );
}

function choiceWords(start: CopeStart, units: LengthUnit): string {
  const both = `Two cuts leave ${onTape(start.leftTwo, units)}, one leaves ${onTape(start.leftOne, units)}, a square end ${onTape(start.leftSquare, units)}.`;
  if (!start.oneIsEnough) return both;
  const none = start.leftSquare - start.leftOne < 1;
  return `${both} ${none ? 'No slanted cut is worth it: saw square, then grind.' : 'A second cut is not worth it: one is better.'}`;
}

function cope(start: CopeStart, part: Part, { units, cage }: PacketInput): Markup {
  const { end, chosen } = start;
  const od = part.tube.section?.od ?? null;
  const zero = end.clockZero?.name ?? 'clock 0';
  const kerf = cage.saw?.kerf ?? null;
  const squared =
    chosen.left - chosen.leftSquared < LESS
      ? ''
      : `; ${onTape(chosen.leftSquared, units)} where the piece was sawn square at its long point first, as drawn`;
  const refused = start.cuts.some(({ hold }) => hold.holds === false);
  return join(
    [
      element(
        'figure',
        {},
        raw(
          svgElement(
            copeSketch(start, zero, `Saw cuts and true curve of ${endLabel(end)}, cut to ${end.hosts.join(', ')}`),
          ),
        ),
      ),
      terms([[`Line ${zero}`, words(zeroWords(part, end, units))]]),
      cutTable(start, od, units),
      terms([
        [
          'Left to grind',
          words(
            `${noLess(chosen.left, units)} at most, along the tube, at clock ${angleWords(chosen.leftClock)}${squared}: to the line of the template, never by this paper alone`,
          ),
        ],
        ['One cut or two', words(choiceWords(start, units))],
        [
          'Blade',
          words(
            `on the side of the joint: the line itself stays on the part${kerf === null ? '' : `, the kerf of ${onTape(kerf, units)} is in the waste`}. Angles no more than ${angleWords(reachOf(cage.saw))} off square.`,
          ),
        ],
        [
          'Measure from',
          words(
            'the long point: the end of the piece when it is sawn square to its cut length. Where the tube is bent, from the bend: that stays right when the stick is longer.',
          ),
        ],
      ]),
      refused
        ? paragraph(
            'The vice does not hold this end: clamp the tube in V-blocks on the table with the cut standing free, or saw it square at the long point and grind the whole curve. Never hold it by hand.',
            'strong',
          )
        : raw(''),
    ].filter((one) => one !== ''),
    '\n',
  );
}

function sawn(figures: PlainSaw, part: Part, { units, cage }: PacketInput): Markup {
  const { end, angle, longClock, depth, hold, reached } = figures;
  const od = part.tube.section?.od ?? null;
  const onto = end.hosts.length === 0 ? 'a square end' : `it stands on ${end.hosts.join(', ')}`;
  const square = longClock === null;
  return terms([
    ['Cut', words(`flat, finished when it is sawn: ${onto}`)],
    ['Saw off square', element('b', {}, words(square ? '0°: square' : angleWords(angle)))],
    ...(square
      ? []
      : ([
          [`Line ${end.clockZero?.name ?? 'clock 0'}`, words(zeroWords(part, end, units))],
          ['Long point at clock', element('b', {}, words(clockWords(longClock, end, od, units)))],
          ['Short side', words(`opposite, ${onTape(depth, units)} behind the long point`)],
        ] as const)),
    ...(figures.fromBend === null
      ? []
      : ([['Long point lies', words(fromBend(figures.fromBend, bendOf(part, end), units))]] as const)),
    ['Does the vice hold it?', words(holdWords(hold, units))],
    ...(reached
      ? []
      : ([
          [
            'Reach',
            element(
              'b',
              {},
              words(
                `the saw turns ${angleWords(reachOf(cage.saw))} off square only: turn the tube in the vice by a wedge of the rest, or cut it with a band saw`,
              ),
            ),
          ],
        ] as const)),
  ]);
}

/** Both ends of a part. What is not known says so. `known`: of the sheets made before. */
export function sawSheet(part: Part, input: PacketInput, known: KnownStarts): Markup {
  return join(
    part.ends.map((end) => {
      const figures = sawnFigures(part, end, input.cage.saw, input.units, known);
      const body =
        figures === null
          ? paragraph('How this end is cut is not known: see the findings on the front page.')
          : figures.kind === 'cope'
            ? cope(figures, part, input)
            : sawn(figures, part, input);
      const hosts = end.hosts.map((name) => input.numbers.get(name)?.label ?? name).join(', ');
      const what = end.fit === 'cope' ? `, cut to ${hosts}` : '';
      return element(
        'section',
        { style: 'break-inside: avoid' },
        element('h2', {}, words(`${endSign(end)} ${endLabel(end)}${what}`)),
        '\n',
        body,
      );
    }),
    '\n',
  );
}
