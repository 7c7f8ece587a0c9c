/** What has to be done to build a car's tubes, and what each step waits for, all of it derived from the model. */
import type { Foot, Vent } from '../../cage/cage';
import { standingOn } from '../../geometry/feet';
import type { End, Part } from '../../geometry/shape';
import { partsOf } from '../../geometry/stretch';
import { ventSite } from '../../geometry/vents';
import { endLabel } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import type { Need, Step } from './graph';
import { throughPanels } from './through';

/** Headings, in the order in which a shop goes about it where nothing else decides. */
export const GROUPS = {
  car: 'The car',
  plates: 'Plates',
  bend: 'Bend',
  fit: 'Cut, cope, fit and tack',
  tape: 'Tape again',
  out: 'Weld out of the car',
  weld: 'Weld in the car',
  finish: 'Finish',
} as const;

export const MEASURE = 'measure';
export const SEATS = 'seats';
export const BAR_HEIGHT = 'bar-height';
export const TAPE = 'tape';
export const PAINT = 'paint';
export const WELDED = 'welded';

export const bendId = (part: string): string => `bend ${part}`;
export const copeId = (part: string): string => `cope ${part}`;
export const passId = (part: string): string => `pass ${part}`;
export const fitId = (part: string): string => `fit ${part}`;
export const tackId = (part: string): string => `tack ${part}`;
export const weldId = (part: string): string => `weld ${part}`;
export const drillId = (vent: string): string => `vent ${vent}`;
export const plateId = (foot: string): string => `plate ${foot}`;
export const footId = (foot: string): string => `foot ${foot}`;
export const outId = (part: string, end: End['which']): string => `out ${part} ${end}`;
export const collarId = (part: string): string => `collars ${part}`;

/** An end that the torch cannot go round where it stands: it is welded out of the car, or let down to be. */
export interface OutOfCar {
  readonly part: string;
  readonly end: End['which'];
  /** `lower it by 42 mm`. */
  readonly how: string;
}

const need = (on: string, why: string): Need => ({ on, why });

type Input = Pick<PacketInput, 'cage' | 'shape' | 'numbers'>;

/** Parts on which an end is cut, that are made and therefore have to be there first. */
const hostsOf = ({ shape }: Input, part: Part): readonly Part[] => {
  const { splitBy } = part.tube;
  const names = part.ends.flatMap((end) => (end.fit === 'cope' ? end.hosts : []));
  const found = [...names, ...(splitBy === null || part.piece === null ? [] : [splitBy])].flatMap((name) =>
    partsOf(shape.parts, name),
  );
  return [...new Set(found)].filter((host) => host !== part && !host.tube.existing);
};

/** Every step of the car, in the order in which it would be done if none had to wait. */
export function stepsOf(input: Input, outOfCar: readonly OutOfCar[] = []): readonly Step[] {
  const { cage, shape, numbers } = input;
  const things = [...cage.things.values()];
  const label = (part: Part): string => numbers.get(part.name)?.label ?? part.name;
  // Hosts before what is cut to them wherever nothing else decides: by the order of the file.
  const made = [...shape.parts.values()].filter(({ tube }) => !tube.existing);
  const steps: Step[] = [];
  const step = (group: string, id: string, does: string, needs: readonly Need[]): void => {
    steps.push({ id, does, group, needs });
  };

  step(
    GROUPS.car,
    MEASURE,
    'Level the car, mark its zero and its middle, and measure every point of the file in the car',
    [],
  );
  const existing = [...shape.parts.values()].filter(({ tube }) => tube.existing);
  if (existing.length > 0) {
    const names = [...new Set(existing.map(({ tube }) => tube.name))].join(', ');
    step(GROUPS.car, 'existing', `Measure what is in the car already: ${names}`, [
      need(MEASURE, 'all heights are taken from the level car'),
    ]);
  }
  const seats = things.filter(({ kind }) => kind === 'seat').map(({ name }) => name);
  const barParts = new Set(
    shape.straps.flatMap(({ tube }) => (tube === null ? [] : partsOf(shape.parts, tube).map(({ name }) => name))),
  );
  if (seats.length > 0) {
    step(
      GROUPS.car,
      SEATS,
      `Fix the seat at its recline and slide, driver in it, and measure its slots: ${seats.join(', ')}`,
      [need(MEASURE, 'the seat is placed from the level car')],
    );
    if (barParts.size > 0)
      step(GROUPS.car, BAR_HEIGHT, "Mark the harness bar's height at the slots, and change the file if it is another", [
        need(SEATS, "the bar's height comes from the slots of the seat where it really stands"),
      ]);
  }

  const feet = things.filter((thing): thing is Foot => thing.kind === 'foot');
  const through = throughPanels(input);
  const passing = new Map<string, string[]>();
  for (const { part, panel } of through) passing.set(part.name, [...(passing.get(part.name) ?? []), panel.name]);
  for (const foot of feet) {
    const holes = [
      ...(foot.bolts === null ? [] : [`${String(foot.bolts.count)} bolt holes`]),
      ...(foot.hole === null ? [] : ['the vent']),
    ];
    const drill = holes.length === 0 ? '' : `, drill ${holes.join(' and ')}`;
    const counter = foot.counterPlate === null ? '' : ', and its counter-plate';
    step(GROUPS.plates, plateId(foot.name), `Cut plate ${foot.name}${counter}${drill}`, [
      need(MEASURE, 'its place in the car has to be known to be flat and clear'),
    ]);
  }

  for (const part of made)
    if (part.bends.length > 0)
      step(GROUPS.bend, bendId(part.name), `Bend ${label(part)} by its sheet, and tape its check dimensions`, [
        need(MEASURE, 'a bend cannot be undone: the measures come first'),
        ...(barParts.has(part.name) ? [need(BAR_HEIGHT, 'the straps lie on it')] : []),
      ]);

  const standing = standingOn(cage, shape.parts);
  for (const foot of feet) {
    const pass = through.filter(({ far }) => far.includes(foot.name));
    const bolted = foot.bolts !== null && foot.welded !== true;
    step(
      GROUPS.fit,
      footId(foot.name),
      bolted ? `Drill the car to plate ${foot.name} and bolt it down` : `Set plate ${foot.name} and clamp or tack it`,
      [
        need(
          plateId(foot.name),
          foot.bolts === null ? 'the plate has to be there' : 'the holes are drilled before the plate is bolted',
        ),
        ...pass.map(({ part, panel }) =>
          need(passId(part.name), `${label(part)} goes through ${panel.name} before the plate on its far side`),
        ),
      ],
    );
  }

  const outBy = new Map(outOfCar.map((one) => [`${one.part} ${one.end}`, one]));
  const vents = things.filter((thing): thing is Vent => thing.kind === 'vent');
  const closes = new Map<string, Vent[]>();
  for (const vent of vents) {
    const site = ventSite(vent, cage, shape.parts);
    if (site === null) continue;
    const drilled = site.host ?? site.child;
    if (!site.child.tube.existing) closes.set(site.child.name, [...(closes.get(site.child.name) ?? []), vent]);
    step(
      GROUPS.fit,
      drillId(vent.name),
      `Drill the vent in ${label(drilled)} where ${label(site.child)} closes it, ${endLabel(site.end)}`,
      [
        need(MEASURE, 'it is laid out from the measured points'),
        ...(drilled.tube.existing
          ? []
          : drilled === site.child
            ? [need(copeId(drilled.name), 'it is measured from the finished cut')]
            : [need(tackId(drilled.name), 'it is laid out where the next tube meets this one as it stands')]),
      ],
    );
  }

  for (const part of made) {
    const hosts = hostsOf(input, part);
    const stands = [...standing].flatMap(([foot, ends]) => (ends.some((one) => one.part === part) ? [foot] : []));
    const panels = passing.get(part.name) ?? [];
    const bent = part.bends.length > 0;
    const split = part.piece === null ? null : part.tube.splitBy;
    const isSplitter = (host: Part): boolean => host.name === split || host.tube.name === split;
    step(GROUPS.fit, copeId(part.name), `Cut ${label(part)} long, then cope or saw its ends`, [
      bent
        ? need(bendId(part.name), 'bend before cope: a bent end is where the bender leaves it')
        : need(MEASURE, 'its length comes from the measured points'),
      ...(bent || !barParts.has(part.name) ? [] : [need(BAR_HEIGHT, 'the straps lie on it')]),
      ...hosts.map((host) =>
        need(
          tackId(host.name),
          isSplitter(host)
            ? `${label(host)} runs through between the two pieces`
            : `it is cut to ${label(host)} as that stands`,
        ),
      ),
      ...(existing.length > 0 ? [need('existing', 'what is there already is measured, not believed')] : []),
    ]);
    if (panels.length > 0)
      step(GROUPS.fit, passId(part.name), `Cut ${panels.join(', ')} open and push ${label(part)} through`, [
        need(copeId(part.name), 'its end cannot be cut behind the firewall'),
      ]);
    step(GROUPS.fit, fitId(part.name), `Fit ${label(part)}: close all round, file what touches first`, [
      need(copeId(part.name), 'it is cut first'),
      ...(panels.length > 0 ? [need(passId(part.name), 'it comes through the firewall')] : []),
      ...stands.map(({ name }) => need(footId(name), 'it stands on the plate')),
    ]);
    step(GROUPS.fit, tackId(part.name), `Tack ${label(part)}`, [
      need(fitId(part.name), 'a gap is mended before the tack, not after'),
      ...(closes.get(part.name) ?? []).map(({ name }) =>
        need(drillId(name), 'the vent is drilled before the joint that closes it'),
      ),
    ]);
  }

  step(
    GROUPS.tape,
    TAPE,
    'Tape all again, diagonals too, before anything is welded: the seat, the slots and the doors with it',
    [
      ...made.map((part) => need(tackId(part.name), 'every tack pulls: all of them are in before the tape decides')),
      ...feet.map(({ name }) => need(footId(name), 'the plates carry the tubes')),
      ...(seats.length > 0 ? [need(SEATS, 'the bar is taped against the seat')] : []),
      need(MEASURE, 'there must be something to compare with'),
    ],
  );

  const before: Need[] = [];
  const collared = new Set(
    shape.straps.flatMap(({ part, collars }) => (part === null || collars.length === 0 ? [] : [part])),
  );
  for (const part of made) {
    if (collared.has(part.name)) {
      step(GROUPS.out, collarId(part.name), `Weld the collars on ${label(part)}, out of the car`, [
        need(TAPE, 'the straps must run as they are drawn before collars hold them there'),
      ]);
      before.push(need(collarId(part.name), 'what is welded out of the car is welded first'));
    }
    for (const end of part.ends) {
      const out = outBy.get(`${part.name} ${end.which}`);
      if (out === undefined) continue;
      const id = outId(part.name, end.which);
      step(GROUPS.out, id, `Weld ${label(part)}, ${endLabel(end)}, ${out.how}`, [
        need(TAPE, 'nothing is welded before it is taped again'),
      ]);
      before.push(need(id, 'what is welded out of the car is welded first'));
    }
  }
  const isWelded = (end: End): boolean => end.fit === 'cope' || end.fit === 'foot';
  for (const part of made) {
    if (!part.ends.some(isWelded)) continue;
    step(
      GROUPS.weld,
      weldId(part.name),
      `Weld ${label(part)} all round at ${part.ends.filter(isWelded).map(endLabel).join(' and ')}`,
      [
        need(TAPE, 'nothing is welded before it is taped again'),
        ...before,
        ...(closes.get(part.name) ?? []).map(({ name }) =>
          need(drillId(name), 'the vent is drilled before the joint that closes it'),
        ),
      ],
    );
  }
  const welds = steps.filter(({ group }) => group === GROUPS.weld || group === GROUPS.out);
  step(GROUPS.finish, WELDED, 'Look at every weld, tape the cage once more, try the seat and the straps', [
    ...welds.map(({ id }) => need(id, 'every weld is made before they are looked at')),
    need(TAPE, 'welding pulls: there must be something to compare with'),
  ]);
  step(GROUPS.finish, PAINT, 'Clean and paint', [
    need(WELDED, 'all welding before paint: it burns off, and hides what has to be looked at'),
  ]);
  step(GROUPS.finish, 'close', 'Padding, seat and straps in; a scrutineer looks at it before it is driven', [
    need(PAINT, 'nothing is padded or covered before it is painted and dry'),
  ]);
  return steps;
}
