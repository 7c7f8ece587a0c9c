/** What has to be done to build a car's tubes, and what each step waits for, all of it derived from the model. */
import { standingOn } from '../../geometry/feet';
import type { Part } from '../../geometry/shape';
import { bothSides } from '../names';
import type { PacketInput } from '../packet/paper';
import type { Need } from './graph';
import { sortSteps } from './graph';
import type { Numbered } from './holes';
import type { Job } from './jobs';
import * as p from './plan';
import type { WorkStep } from './plan';
import { need, Plan } from './plan';
import type { Before } from '../room/rooms';
import { throughPanels } from './through';
import type { OutOfCar } from './weld-steps';
import { afterTacks } from './weld-steps';
import { holeNumbers, holeWords, jobLabel, labelOf } from './words';

const { GROUPS } = p;

const named = (holes: readonly Numbered[]): readonly string[] => holes.map(({ id }) => id);

function carSteps(plan: Plan): readonly WorkStep[] {
  const { input, existing, bars } = plan;
  const things = [...input.cage.things.values()];
  const holes = plan.holesAt('car');
  const seats = things.filter(({ kind }) => kind === 'seat').map(({ name }) => name);
  const step = (id: string, does: string, needs: readonly Need[], of: readonly Numbered[] = []): WorkStep => ({
    ...{ group: GROUPS.car, id, does, needs },
    ...{ parts: [], holes: named(of) },
  });
  const steps = [
    step(
      p.MEASURE,
      'Level the car, mark its zero and its middle, and measure every point of the set-out sheet in the car',
      [],
    ),
  ];
  if (existing.length > 0) {
    const names = bothSides([...new Set(existing.map(({ tube }) => tube.name))]).join(', ');
    steps.push(
      step(p.EXISTING, `Measure what is in the car already: ${names}`, [
        need(p.MEASURE, 'all heights are taken from the level car'),
      ]),
    );
  }
  if (seats.length > 0) {
    const what = 'Fix the seat at its recline and slide, driver in it, and measure its slots';
    steps.push(
      step(p.SEATS, `${what}: ${seats.join(', ')}`, [need(p.MEASURE, 'the seat is placed from the level car')]),
    );
    if (bars.size > 0) {
      const mark = "Mark the harness bar's height at the slots, and change the file if it is another";
      steps.push(
        step(p.BAR_HEIGHT, mark, [
          need(p.SEATS, "the bar's height comes from the slots of the seat where it really stands"),
        ]),
      );
    }
  }
  if (holes.length > 0) {
    const needs = [
      need(p.MEASURE, 'they are laid out from the measured points'),
      ...(seats.length > 0 ? [need(p.SEATS, 'mounts and straps follow the seat as it stands')] : []),
    ];
    steps.push(step(p.CAR_HOLES, `Drill in the car by the drill list: ${holeWords(holes, input)}`, needs, holes));
  }
  return steps;
}

function plateSteps(plan: Plan): readonly WorkStep[] {
  return plan.feet.map(({ key, feet }): WorkStep => {
    const holes = plan.holesAt(
      'plate',
      feet.map(({ name }) => name),
    );
    const plates = bothSides(feet.map(({ name }) => name)).join(', ');
    const counter = feet.some(({ counterPlate }) => counterPlate !== null) ? ', each with its counter-plate' : '';
    const drill = holes.length === 0 ? '' : `; drill ${holeNumbers(holes)} on the bench`;
    return {
      ...{ group: GROUPS.plates, id: p.plateId(key), parts: [], holes: named(holes) },
      does: `Cut ${feet.length === 1 ? 'plate' : 'plates'} ${plates} by the set-out sheet${counter}${drill}`,
      needs: [need(p.MEASURE, 'their place in the car has to be known to be flat and clear')],
    };
  });
}

function bendSteps({ jobs, bars, input }: Plan): readonly WorkStep[] {
  return jobs.flatMap((job): readonly WorkStep[] => {
    const bent = job.parts.filter(({ bends }) => bends.length > 0);
    if (bent.length === 0) return [];
    return [
      {
        ...{ group: GROUPS.bend, id: p.bendId(job.key), parts: bent.map(({ name }) => name), holes: [] },
        does: `Saw the stick, bend it by its sheet and take every check dimension: ${jobLabel({ ...job, parts: bent }, input)}`,
        needs: [
          need(p.MEASURE, 'a bend cannot be undone: the measures come first'),
          ...(bent.some(({ name }) => bars.has(name))
            ? [need(p.BAR_HEIGHT, 'the straps lie on it: its height follows the seat')]
            : []),
        ],
      },
    ];
  });
}

/** Which parts go through which panels, and which feet lie behind one. */
interface Passing {
  readonly panels: ReadonlyMap<string, readonly string[]>;
  readonly far: ReadonlyMap<string, readonly { readonly part: Part; readonly panel: string }[]>;
}

function passingOf({ cage, shape }: PacketInput): Passing {
  const panels = new Map<string, string[]>();
  const far = new Map<string, { part: Part; panel: string }[]>();
  for (const { part, panel, far: feet } of throughPanels({ cage, shape })) {
    panels.set(part.name, [...(panels.get(part.name) ?? []), panel.name]);
    for (const foot of feet) far.set(foot, [...(far.get(foot) ?? []), { part, panel: panel.name }]);
  }
  return { panels, far };
}

function footSteps(plan: Plan, { far }: Passing): readonly WorkStep[] {
  const carHoles = plan.holesAt('car').length > 0;
  return plan.feet.map(({ key, feet }): WorkStep => {
    const plates = bothSides(feet.map(({ name }) => name)).join(', ');
    const word = feet.length === 1 ? 'plate' : 'plates';
    const bolted = feet.every(({ bolts, welded }) => bolts !== null && welded !== true);
    const passes = feet.flatMap(({ name }) => far.get(name) ?? []);
    return {
      ...{ group: GROUPS.feet, id: p.footId(key), parts: [], holes: [] },
      does: bolted
        ? `Drill the car through ${word} ${plates}, and bolt ${feet.length === 1 ? 'it' : 'them'} down`
        : `Set ${word} ${plates}, clamped or tacked`,
      needs: [
        need(
          p.plateId(key),
          feet.some(({ bolts }) => bolts !== null)
            ? 'the holes are drilled before the plate is bolted'
            : 'the plate has to be there',
        ),
        ...(carHoles
          ? [need(p.CAR_HOLES, 'what is drilled in the car is drilled before the cage stands in the way')]
          : []),
        ...passes.map(({ part, panel }) =>
          need(
            p.passId(plan.jobOf(part.name)),
            `${labelOf(part, plan.input)} goes through ${panel} before the plate on its far side`,
          ),
        ),
      ],
    };
  });
}

/** Hosts that are tacked in one step stand in one reason. */
function hostNeeds(plan: Plan, hosts: readonly Part[], splits: (host: Part) => boolean): readonly Need[] {
  const byStep = new Map<string, Part[]>();
  for (const host of hosts) {
    const key = JSON.stringify([plan.jobOf(host.name), splits(host)]);
    byStep.set(key, [...(byStep.get(key) ?? []), host]);
  }
  return [...byStep.values()].flatMap((parts): readonly Need[] => {
    const [first] = parts;
    if (first === undefined) return [];
    const key = plan.jobOf(first.name);
    const label = jobLabel({ key, parts }, plan.input);
    const many = parts.length > 1;
    const why = splits(first)
      ? `${label} ${many ? 'run' : 'runs'} through between the pieces`
      : `cut to ${label} as ${many ? 'they stand' : 'that stands'}`;
    return [need(p.tackId(key), why)];
  });
}

function tubeSteps(
  plan: Plan,
  job: Job,
  passing: Passing,
  standing: ReadonlyMap<string, readonly string[]>,
): readonly WorkStep[] {
  const { input, bars } = plan;
  const { key, parts } = job;
  const names = parts.map(({ name }) => name);
  const about = jobLabel(job, input);
  const step = (id: string, does: string, needs: readonly Need[], holes: readonly Numbered[] = []): WorkStep => ({
    ...{ group: GROUPS.fit, id, does, needs, about },
    ...{ parts: names, holes: named(holes) },
  });
  const bent = parts.some(({ bends }) => bends.length > 0);
  const inPieces = parts.some(({ piece }) => piece !== null);
  const panels = [...new Set(names.flatMap((name) => passing.panels.get(name) ?? []))];
  const feet = [...new Set(names.flatMap((name) => standing.get(name) ?? []))];
  const hosts = [...new Set(parts.flatMap((part) => plan.hostsOf(part)))];
  const splits = (host: Part): boolean =>
    inPieces && parts.some(({ tube }) => tube.splitBy === host.name || tube.splitBy === host.tube.name);
  const isBar = names.some((name) => bars.has(name));
  const hasExisting = parts.some(({ ends }) =>
    ends.some(({ fit, hosts: of }) => fit === 'cope' && of.some((host) => input.shape.parts.get(host)?.tube.existing)),
  );
  const steps: WorkStep[] = [];

  steps.push(
    step(
      p.copeId(key),
      bent
        ? 'Cut to length by the bend sheet, then cope or saw the ends: by template and saw sheet'
        : 'Saw the stick by the cut list, then cope or saw the ends: by template and saw sheet',
      [
        bent
          ? need(p.bendId(key), 'bend before cope: a bent end is where the bender leaves it')
          : need(p.MEASURE, 'its length comes from the measured points'),
        ...(!bent && isBar ? [need(p.BAR_HEIGHT, 'the straps lie on it: its height follows the seat')] : []),
        ...hostNeeds(plan, hosts, splits),
        ...(hasExisting ? [need(p.EXISTING, 'what is there already is measured, not believed')] : []),
      ],
    ),
  );
  const fitNeeds: Need[] = [need(p.copeId(key), 'it is cut first')];

  const bench = plan.holesAt('bench', names);
  if (bench.length > 0) {
    const sleeves = bench.some(({ drilling: { thing } }) => 'sleeve' in thing && thing.sleeve)
      ? ', weld the sleeves in'
      : '';
    const why = bent
      ? 'a hole in a straight tube starts a kink when it is bent, and it is measured from the finished cut'
      : 'it is measured from the finished cut';
    steps.push(
      step(
        p.benchId(key),
        `On the bench: drill ${holeWords(bench, input)}${sleeves}`,
        [need(p.copeId(key), why)],
        bench,
      ),
    );
    fitNeeds.push(need(p.benchId(key), 'on the bench a drill stands square'));
  }
  if (input.shape.straps.some(({ part, collars }) => part !== null && names.includes(part) && collars.length > 0)) {
    steps.push(
      step(p.collarId(key), 'Slide the collars on, if they are in one piece', [
        need(p.copeId(key), 'the ends are cut first'),
      ]),
    );
    fitNeeds.push(need(p.collarId(key), 'over a tube that is in its place no ring goes'));
  }
  if (panels.length > 0) {
    steps.push(
      step(p.passId(key), `Cut ${panels.join(', ')} open, and push it through`, [
        need(p.copeId(key), 'its end cannot be cut behind the firewall'),
      ]),
    );
    fitNeeds.push(need(p.passId(key), 'it comes through the firewall'));
  }
  fitNeeds.push(...feet.map((foot) => need(p.footId(foot), 'it stands on the plate')));

  steps.push(
    step(p.fitId(key), 'Fit where the set-out sheet has it: no gap all round; file what touches first', fitNeeds),
  );
  const tackNeeds: Need[] = [need(p.fitId(key), 'a gap is mended before the tack, not after')];
  const joint = plan.holesAt('joint', names);
  if (joint.length > 0) {
    const vents = joint.some(({ drilling: { sort } }) => sort === 'vent' || sort === 'air');
    const scribe = joint.some(({ drilling: { part } }) => part !== null && !names.includes(part.name));
    const does = `${scribe ? 'Scribe round where it lands, take' : 'Take'} it off, drill ${holeWords(joint, input)}, and put it back`;
    steps.push(step(p.drillId(key), does, [need(p.fitId(key), 'only a fitted end shows where the hole goes')], joint));
    const why = vents
      ? 'a vent is drilled before the joint that closes it'
      : 'both halves of a fitting are drilled together before they are welded on';
    tackNeeds.push(need(p.drillId(key), why));
  }
  steps.push(step(p.tackId(key), 'Tack', tackNeeds));
  return steps;
}

function allSteps(plan: Plan, outOfCar: readonly OutOfCar[]): readonly WorkStep[] {
  const { input } = plan;
  if (plan.jobs.length === 0) return [];
  const passing = passingOf(input);
  const feetKeys = new Map(plan.feet.flatMap(({ key, feet }) => feet.map(({ name }) => [name, key])));
  const standing = new Map<string, string[]>();
  for (const [foot, ends] of standingOn(input.cage, input.shape.parts))
    for (const { part } of ends)
      standing.set(part.name, [...(standing.get(part.name) ?? []), feetKeys.get(foot.name) ?? foot.name]);
  return [
    ...carSteps(plan),
    ...plateSteps(plan),
    ...bendSteps(plan),
    ...footSteps(plan, passing),
    ...plan.jobs.flatMap((job) => tubeSteps(plan, job, passing, standing)),
    ...afterTacks(plan, outOfCar),
  ];
}

/** A tube that a bar has to be in before is not fitted until that bar is tacked. */
function afterBars(plan: Plan, steps: readonly WorkStep[], before: readonly Before[]): readonly WorkStep[] {
  const waits = new Map<string, Need[]>();
  for (const { bar, neighbour } of before) {
    const part = plan.input.shape.parts.get(bar);
    const [first, then] = [plan.jobOf(bar), plan.jobOf(neighbour)];
    if (part === undefined || first === then) continue;
    const why = `${labelOf(part, plan.input)} does not go in past it: see the page "Will it go in?"`;
    waits.set(p.fitId(then), [...(waits.get(p.fitId(then)) ?? []), need(p.tackId(first), why)]);
  }
  return steps.map((step) => ({ ...step, needs: [...step.needs, ...(waits.get(step.id) ?? [])] }));
}

/**
 * Every step of the car, in the order in which it would be done if none had to wait. Twins, and the pieces of a split
 * tube, share their steps, unless that would have one wait for the other; where there is a circle, each tube stands for
 * itself, so that the links say which. `before`: bars that have to be in before their neighbours; where that would make
 * a circle, it is left to the page that tells of it.
 */
export function stepsOf(
  input: PacketInput,
  outOfCar: readonly OutOfCar[] = [],
  before: readonly Before[] = [],
): readonly WorkStep[] {
  const plan = new Plan(input, true);
  const steps = allSteps(plan, outOfCar);
  if (sortSteps(steps).cycles.length > 0) return allSteps(new Plan(input, false), outOfCar);
  const later = afterBars(plan, steps, before);
  return sortSteps(later).cycles.length === 0 ? later : steps;
}
