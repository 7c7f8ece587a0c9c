/** What is done once all tubes are tacked: tape again, weld, look, paint. */
import type { Gusset } from '../../cage/hardware';
import { partsOf } from '../../geometry/stretch';
import type { End } from '../../geometry/shape';
import { bothSides } from '../names';
import { endName } from '../packet/numbers';
import type { Need } from './graph';
import type { Plan, WorkStep } from './plan';
import * as p from './plan';
import { need } from './plan';
import { holeNumbers, jobLabel, stretches } from './words';

const { GROUPS } = p;

/** An end that the torch cannot go round where it stands: it is welded out of the car, or let down to be. */
export interface OutOfCar {
  readonly part: string;
  readonly end: End['which'];
  /** `let the tubes down by 42 mm`. */
  readonly how: string;
}

const step = (
  group: string,
  id: string,
  does: string,
  needs: readonly Need[],
  parts: readonly string[] = [],
  holes: readonly string[] = [],
): WorkStep => ({ group, id, does, needs, parts, holes });

const hasSeats = ({ input }: Plan): boolean => [...input.cage.things.values()].some(({ kind }) => kind === 'seat');

/** What every weld waits for. */
const ready = (plan: Plan): readonly Need[] => [
  need(p.TAPE, 'nothing is welded before it is taped again'),
  ...(hasSeats(plan) ? [need(p.SEATS_OUT, 'nothing that burns is near the sparks')] : []),
];

/** Cut to the corner as it stands, and kept aside: it would cover a joint that is not welded yet. */
function gussetSteps(plan: Plan): readonly WorkStep[] {
  const { cage, shape } = plan.input;
  const gussets = [...cage.things.values()].filter((thing): thing is Gusset => thing.kind === 'gusset');
  if (gussets.length === 0) return [];
  const names = gussets.map(({ name }) => name);
  const holes = plan.holesAt('gusset', names);
  const between = gussets
    .flatMap((one) => one.between ?? [])
    .flatMap((name) => (name === null ? [] : partsOf(shape.parts, name)))
    .filter(({ tube }) => !tube.existing);
  const drill = holes.length === 0 ? '' : `; drill ${holeNumbers(holes)} while they are flat`;
  return [
    step(
      GROUPS.fit,
      p.GUSSETS,
      `Cut the gussets to their corners and keep them aside: ${bothSides(names).join(', ')}${drill}`,
      [
        need(p.MEASURE, 'corners are measured, not believed'),
        ...[...new Set(between.map(({ name }) => plan.jobOf(name)))].map((key) =>
          need(p.tackId(key), 'a gusset is cut to its corner as that stands'),
        ),
      ],
      [],
      holes.map(({ id }) => id),
    ),
  ];
}

function tapeStep(plan: Plan): WorkStep {
  const seats = hasSeats(plan);
  return step(
    GROUPS.tape,
    p.TAPE,
    `Tape all again, diagonals too, before anything is welded${seats ? ': the seat, the slots and the doors with it' : ', the doors with it'}`,
    [
      ...plan.jobs.map(({ key }) =>
        need(p.tackId(key), 'every tack pulls: all of them are in before the tape decides'),
      ),
      ...plan.feet.map(({ key }) => need(p.footId(key), 'the plates carry the tubes')),
      ...(seats ? [need(p.SEATS, 'the bar is taped against the seat')] : []),
      need(p.MEASURE, 'there must be something to compare with'),
    ],
  );
}

/** It went in to be measured and taped by; common practice, no source. */
function seatsOutStep(plan: Plan): readonly WorkStep[] {
  if (!hasSeats(plan)) return [];
  const does = 'Mark where the seat stands and take it out, and whatever else burns';
  return [step(GROUPS.tape, p.SEATS_OUT, does, [need(p.TAPE, 'the cage is taped with the seat in')])];
}

/** Ends of one job that are helped in the same way stand in one step. */
function outSteps(plan: Plan, outOfCar: readonly OutOfCar[]): readonly WorkStep[] {
  const byWay = new Map<string, OutOfCar[]>();
  for (const one of outOfCar) {
    const way = JSON.stringify([plan.jobOf(one.part), one.end, one.how]);
    byWay.set(way, [...(byWay.get(way) ?? []), one]);
  }
  const numberOf = new Map(outOfCar.map((one, i) => [one, i + 1]));
  return [...byWay.values()].flatMap((of, turn): readonly WorkStep[] => {
    const [first] = of;
    if (first === undefined) return [];
    const key = plan.jobOf(first.part);
    const names = of.map(({ part }) => part);
    const parts = names.flatMap((name) => plan.input.shape.parts.get(name) ?? []);
    const numbers = stretches(
      of.map((one) => numberOf.get(one) ?? 0),
      'W',
    );
    const does = `Weld ${numbers}: ${jobLabel({ key, parts }, plan.input)} at ${endName({ which: first.end })}, ${first.how}`;
    return [step(GROUPS.out, p.outId(key, first.end, turn), does, ready(plan), names)];
  });
}

/** Plates that the file has welded to the shell, or of which it does not tell how they are held. */
function plateStep(plan: Plan): readonly WorkStep[] {
  const feet = plan.feet.flatMap(({ feet: of }) => of);
  const plates = bothSides(feet.filter(({ welded }) => welded === true).map(({ name }) => name));
  const unknown = bothSides(
    feet.filter(({ welded, bolts }) => welded !== true && bolts === null).map(({ name }) => name),
  );
  const counters = bothSides(
    feet.filter(({ counterPlate }) => counterPlate?.held === 'welded').map(({ name }) => name),
  );
  const said = [
    ...(plates.length === 0 ? [] : [`weld plates ${plates.join(', ')} to the car`]),
    ...(counters.length === 0 ? [] : [`weld the counter-plates of ${counters.join(', ')} to the shell`]),
    ...(unknown.length === 0 ? [] : [`fix plates ${unknown.join(', ')}: how is not told`]),
  ].join('; ');
  if (said === '') return [];
  const does = said.charAt(0).toUpperCase() + said.slice(1);
  return [
    step(GROUPS.weld, p.WELD_PLATES, does, [
      ...ready(plan),
      ...plan.feet.map(({ key }) => need(p.footId(key), 'the plates are in their places')),
    ]),
  ];
}

/** Everything after the last tack, in order. */
export function afterTacks(plan: Plan, outOfCar: readonly OutOfCar[]): readonly WorkStep[] {
  const gussets = gussetSteps(plan);
  const out = outSteps(plan, outOfCar);
  const first = out.map(({ id }) => need(id, 'what is welded out of the car is welded first'));
  const done = new Set(outOfCar.map(({ part, end }) => `${part} ${end}`));
  const welded = plan.jobs
    .flatMap(({ parts }) => parts)
    .filter((part) => part.ends.some((end) => p.isWelded(end) && !done.has(`${part.name} ${end.which}`)));
  const joints = welded.flatMap((part) =>
    part.ends.filter((end) => p.isWelded(end) && !done.has(`${part.name} ${end.which}`)),
  ).length;
  const plates = plateStep(plan).map((one) => ({ ...one, needs: [...one.needs, ...first] }));
  const weld =
    joints === 0
      ? []
      : [
          step(
            GROUPS.weld,
            p.WELD,
            `Weld ${out.length === 0 ? 'every joint of the weld list' : 'what is left on the weld list'}, ${String(joints)} ${joints === 1 ? 'joint' : 'joints'}, in its turns: ${stretches(
              Array.from({ length: joints }, (_, i) => outOfCar.length + i + 1),
              'W',
            )}`,
            [...ready(plan), ...first],
            welded.map(({ name }) => name),
          ),
        ];
  const weldGussets = gussets.map(() =>
    step(GROUPS.weld, p.WELD_GUSSETS, 'Weld the gussets in', [
      ...ready(plan),
      need(p.GUSSETS, 'they are cut and drilled first'),
      ...weld.map(({ id }) => need(id, 'the joint under a gusset is welded first: the gusset covers it')),
      ...first,
    ]),
  );
  const welds = [...out, ...plates, ...weld, ...weldGussets];
  const straps = plan.bars.size > 0;
  return [
    ...gussets,
    tapeStep(plan),
    ...seatsOutStep(plan),
    ...welds,
    step(
      GROUPS.finish,
      p.WELDED,
      `${welds.length === 0 ? 'Tape' : 'Look at every weld, tape'} the cage once more${straps ? ', try the seat and the straps' : ''}`,
      [
        ...welds.map(({ id }) => need(id, 'every weld is made before they are looked at')),
        need(p.TAPE, 'there must be something to compare with: welding pulls'),
      ],
    ),
    step(GROUPS.finish, p.PAINT, 'Clean and paint', [
      need(p.WELDED, 'all welding before paint: it burns off, and hides what has to be looked at'),
    ]),
    step(
      GROUPS.finish,
      p.CLOSE,
      `Padding${straps ? ', seat and straps' : ''} in; a scrutineer looks at it before it is driven`,
      [need(p.PAINT, 'nothing is padded or covered before it is painted and dry')],
    ),
  ];
}
