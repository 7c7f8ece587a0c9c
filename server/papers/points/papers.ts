/** The set-out sheet of a packet: points in the car, where ends land, plates and gussets with their sizes. */
import type { LengthUnit } from '../../../grammar/units';
import type { CounterPlate, Foot } from '../../cage/cage';
import type { Gusset } from '../../cage/hardware';
import { angleWords } from '../bend/words';
import { alongWords, clockWords } from '../drill/words';
import type { Markup, Row } from '../html';
import { element, figures, join, lines, paragraph, table, words } from '../html';
import { bothSides } from '../names';
import { onTape } from '../on-tape';
import { endLabel, endName } from '../packet/numbers';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { paperPage } from '../packet/paper-page';
import type { Landing, Point } from './points';
import { landingsOf, pointsOf } from './points';

/** Less than this from the middle or the zero is on it, mm. */
const ON_IT = 0.05;

const along = (value: number, plus: string, minus: string, none: string, units: LengthUnit): string =>
  Math.abs(value) < ON_IT ? none : `${onTape(Math.abs(value), units)} ${value > 0 ? plus : minus}`;

/** Forward, sideways, up. */
function placeWords({ at, twins }: Point, units: LengthUnit): readonly [string, string, string] {
  if (at === null) return ['not known', 'not known', 'not known'];
  const [x, y, z] = at;
  const side =
    twins && Math.abs(y) >= ON_IT
      ? `${onTape(Math.abs(y), units)} to the left and to the right`
      : along(y, 'left', 'right', 'on the middle', units);
  return [along(x, 'forward', 'aft', 'at the zero', units), side, along(z, 'up', 'down', 'at the zero', units)];
}

function usesOf({ parts, feet }: Point, { numbers }: PacketInput): string {
  const tubes = parts.map(({ part, end }) => {
    const label = numbers.get(part.name)?.label ?? part.name;
    return end === null ? `corner of a bend of ${label}` : `${label} ${endName(end)}`;
  });
  return [...new Set(tubes), ...bothSides(feet.map(({ name }) => name)).map((name) => `plate ${name}`)].join('; ');
}

const pointRow = (point: Point, input: PacketInput): Row => ({
  cells: [
    words(point.twins ? `${point.name}, LEFT and RIGHT` : point.name),
    ...placeWords(point, input.units).map(figures),
    figures(usesOf(point, input)),
    words('☐'),
  ],
});

function landingRow({ part, end, host, along: place }: Landing, input: PacketInput): Row {
  const { numbers, touched, units } = input;
  const stop = [part, host].find(({ name }) => touched.has(name));
  const where =
    stop !== undefined
      ? [`not given: an open error touches ${stop.name}`]
      : place === null
        ? ['not known']
        : alongWords(place, units, false);
  return {
    cells: [
      figures(`${numbers.get(part.name)?.label ?? part.name}, ${endLabel(end)}`),
      words(numbers.get(host.name)?.label ?? `${host.name} (in the car already)`),
      lines(where.map(figures)),
      figures(stop === undefined && place !== null ? clockWords(place, units) : ''),
      words('☐'),
    ],
  };
}

const angle = (value: number): string => angleWords(Math.abs(value));

const sizeWords = (of: Pick<CounterPlate, 'long' | 'wide' | 'thick'> | null, units: LengthUnit): string =>
  of === null ? 'not told' : [of.long, of.wide, of.thick].map((one) => onTape(one, units)).join(' x ');

/** `rises 4° aft, 2° to the left`. */
function liesWords({ lies, plate }: Foot): string {
  const turned =
    plate === null || Math.abs(plate.turned) < 1e-6
      ? ''
      : `; turned ${angle(plate.turned)} ${plate.turned > 0 ? 'anticlockwise' : 'clockwise'} from above`;
  if (lies.kind === 'square') return `square across its tube${turned}`;
  if (lies.kind === 'unknown') return 'not known';
  const slopes = [
    ...(Math.abs(lies.aft) < 1e-6 ? [] : [`${angle(lies.aft)} ${lies.aft > 0 ? 'aft' : 'forward'}`]),
    ...(Math.abs(lies.left) < 1e-6 ? [] : [`${angle(lies.left)} to the ${lies.left > 0 ? 'left' : 'right'}`]),
  ];
  return `${slopes.length === 0 ? 'level' : `rises ${slopes.join(' and ')}`}${turned}`;
}

const plateRow = (foot: Foot, { units }: PacketInput): Row => ({
  cells: [
    words(foot.name),
    figures(sizeWords(foot.plate, units)),
    words(liesWords(foot)),
    figures(
      foot.counterPlate === null
        ? 'none'
        : `${sizeWords(foot.counterPlate, units)}${foot.counterPlate.held === null ? '' : `, ${foot.counterPlate.held}`}`,
    ),
    words('☐'),
  ],
});

const MADE: Readonly<Record<NonNullable<Gusset['made']>, string>> = {
  sheet: 'sheet bent to a U',
  flat: 'flat plate',
  tube: 'a piece of tube',
};

const gussetRow = (gusset: Gusset, { units, numbers }: PacketInput): Row => ({
  cells: [
    words(gusset.name),
    words(
      (gusset.between ?? [])
        .map((name) => (name === null ? 'not known' : (numbers.get(name)?.label ?? name)))
        .join(' and '),
    ),
    figures(gusset.legs === null ? 'not told' : gusset.legs.map((leg) => onTape(leg, units)).join(' and ')),
    figures(onTape(gusset.thickness, units)),
    figures(
      [
        gusset.made === null ? 'how it is made is not told' : MADE[gusset.made],
        ...(gusset.cutOut === null ? [] : [`cut out at the corner, radius ${onTape(gusset.cutOut, units)}`]),
      ].join('; '),
    ),
    words('☐'),
  ],
});

const NOTES = [
  'Points are those of the file: middles of tubes, corners of bends (where their straight legs would meet), middles of plates. Forward and aft from the zero of the car, left and right of its middle as the driver sits, up from the level zero.',
  'Landings: where the middle of the end that is cut meets the outside of the tube that it lands on, along that tube. Clock: seen along it from END 1 toward END 2, clockwise; 0° is TOP, on tubes near to upright FRONT. Mark both before the tube is fitted, and believe the car where it says otherwise.',
];

const TICK = ['', 5] as const;

/** A part of the sheet; nothing where it has no rows. */
function part(title: string, columns: Parameters<typeof table>[1], rows: readonly Row[]): readonly Markup[] {
  if (rows.length === 0) return [];
  return [element('h2', {}, words(title)), table(`${title}: ${String(rows.length)}`, columns, rows, 'long')];
}

export const pointPapers: Maker = (input: PacketInput): readonly Paper[] => {
  const things = [...input.cage.things.values()];
  const numberOf = ({ part: one }: Landing): number => input.numbers.get(one.name)?.number ?? Infinity;
  const parts = [
    ...part(
      'Points in the car',
      [['Point', 19], ['Forward or aft', 16], ['Left or right', 19], ['Up or down', 16], ['What is there', 25], TICK],
      pointsOf(input).map((point) => pointRow(point, input)),
    ),
    ...part(
      'Where ends land',
      [['End', 26], ['On', 17], ['Along it', 33], ['Clock', 19], TICK],
      [...landingsOf(input)].sort((a, b) => numberOf(a) - numberOf(b)).map((one) => landingRow(one, input)),
    ),
    ...part(
      'Plates',
      [['Plate', 17], ['Long x wide x thick', 28], ['How it lies', 22], ['Counter-plate', 28], TICK],
      things.flatMap((thing) => (thing.kind === 'foot' ? [plateRow(thing, input)] : [])),
    ),
    ...part(
      'Gussets',
      [['Gusset', 17], ['Between', 23], ['Legs', 21], ['Thick', 14], ['Made of', 20], TICK],
      things.flatMap((thing) => (thing.kind === 'gusset' ? [gussetRow(thing, input)] : [])),
    ),
  ];
  const content = paperPage(input, { title: 'Set-out sheet', what: 'set-out sheet' }, [
    element('div', { class: 'small' }, lines(NOTES.map(words))),
    parts.length === 0 ? paragraph('The file tells of no point, plate or joint.') : join(parts, '\n'),
  ]);
  return [
    {
      path: 'set-out.html',
      title: 'Set-out sheet: points, where ends land, plates and gussets',
      kind: 'set-out',
      parts: [],
      content,
    },
  ];
};
