/** The order of work: Markdown with boxes to tick, each step with what it waits for and why. */
import { CAUTIONS, footer, header, markupMark } from '../packet/marks';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { stoppedParts } from '../packet/stopped';
import { outOfCarOf } from '../weld/out';
import type { Link, Need, Sorted } from './graph';
import { shortNeeds, sortSteps } from './graph';
import type { WorkStep } from './plan';
import { stepsOf } from './steps';
import { stretches } from './words';

/** A file's words as words: nothing in them is read as Markdown or HTML. */
export const plain = (text: string): string => text.replace(/[\\`*_[\]<>#|&~]/g, '\\$&').replace(/\s+/g, ' ');

/** Needs with the same reason stand together: `after 3, 4 (it is cut to them)`. */
function reasons(needs: readonly Need[], numberOf: ReadonlyMap<string, number>): string | null {
  const by = new Map<string, number[]>();
  for (const { on, why } of needs) {
    const number = numberOf.get(on);
    if (number !== undefined) by.set(why, [...(by.get(why) ?? []), number]);
  }
  if (by.size === 0) return null;
  return [...by].map(([why, numbers]) => `after ${stretches(numbers)} (${plain(why)})`).join('; ');
}

/** `cope 03 backstay waits for fit 02 hoop: it is cut to it`. */
const linkWords = (link: Link, doesOf: ReadonlyMap<string, string>): string =>
  `- "${plain(doesOf.get(link.step) ?? link.step)}" waits for "${plain(doesOf.get(link.on) ?? link.on)}": ${plain(link.why)}`;

/** What a step does, with the tube that it is about. */
const fullWords = ({ about, does }: WorkStep): string => (about === undefined ? does : `${about}: ${does}`);

function circles({ cycles, stuck }: Sorted<WorkStep>): readonly string[] {
  if (cycles.length === 0) return [];
  const doesOf = new Map(stuck.map((step) => [step.id, fullWords(step)]));
  const inCircle = new Set(cycles.flatMap((cycle) => cycle.map(({ step }) => step)));
  const behind = stuck.filter(({ id }) => !inCircle.has(id));
  return [
    '## STOP: steps that wait for one another',
    '',
    'There is no order in which these can be done. Write in the file which tube runs through (`onto …`, `joint … order …`).',
    '',
    ...cycles.flatMap((cycle, i) => [
      `Circle ${String(i + 1)}:`,
      '',
      ...cycle.map((link) => linkWords(link, doesOf)),
      '',
    ]),
    ...(behind.length === 0
      ? []
      : ['Waiting behind a circle, in no order:', '', ...behind.map((step) => `- ${plain(fullWords(step))}`), '']),
  ];
}

/** What every step of a stretch waits for, said once above it; the least number of steps for which that is worth it. */
const COMMON = 2;

const same = (a: Need, b: Need): boolean => a.on === b.on && a.why === b.why;

function commonNeeds(steps: readonly WorkStep[], needsOf: ReadonlyMap<string, readonly Need[]>): readonly Need[] {
  const [first, ...rest] = steps;
  if (first === undefined || steps.length < COMMON) return [];
  return (needsOf.get(first.id) ?? []).filter((one) =>
    rest.every(({ id }) => needsOf.get(id)?.some((other) => same(one, other)) === true),
  );
}

/** Steps that follow each other under one heading. */
function runs(order: readonly WorkStep[]): readonly (readonly WorkStep[])[] {
  const found: WorkStep[][] = [];
  for (const step of order) {
    const last = found.at(-1);
    if (last?.[0]?.group === step.group) last.push(step);
    else found.push([step]);
  }
  return found;
}

/** Said before what a step does, where an open error touches what it is about: all of it, or these parts. */
function stopWords({ parts }: WorkStep, { touched, numbers }: PacketInput): string {
  const stopped = parts.filter((name) => touched.has(name));
  if (stopped.length === 0) return '';
  if (stopped.length === parts.length) return '**STOP, an error is open:** ';
  const labels = stopped.map((name) => plain(numbers.get(name)?.label ?? name));
  return `**STOP, not ${labels.join('; ')}, an error is open:** `;
}

function list(order: readonly WorkStep[], input: PacketInput): readonly string[] {
  const numberOf = new Map(order.map(({ id }, i) => [id, i + 1]));
  const needsOf = shortNeeds(order);
  return runs(order).flatMap((steps, i) => {
    const common = commonNeeds(steps, needsOf);
    const all = reasons(common, numberOf);
    let about: string | undefined;
    const lines = steps.flatMap((step): readonly string[] => {
      const heading = step.about === undefined || step.about === about ? [] : ['', `### ${plain(step.about)}`, ''];
      const gap = step.about === undefined && about !== undefined ? ['', '### Then', ''] : heading;
      about = step.about;
      const own = (needsOf.get(step.id) ?? []).filter((one) => !common.some((other) => same(one, other)));
      const why = reasons(own, numberOf);
      const stop = stopWords(step, input);
      const box = `- [ ] **${String(numberOf.get(step.id))}.** ${stop}${plain(step.does)}`;
      return [...gap, box, ...(why === null ? [] : [`      ${why}`])];
    });
    const above = all === null ? [] : [`Every step here is done ${all}.`, ''];
    return [...(i === 0 ? [] : ['']), `## ${steps[0]?.group ?? ''}`, '', ...above, ...lines];
  });
}

export function orderText(input: PacketInput): string {
  const sorted = sortSteps(stepsOf(input, outOfCarOf(input), input.rooms().before));
  const stopped = stoppedParts(input).map(
    ({ labels, why }) => `- **STOP: do not cut ${labels.map(plain).join('; ')}**: ${plain(why)}`,
  );
  return [
    markupMark,
    '',
    `# ${plain(header(input, 'order of work'))}`,
    '',
    ...CAUTIONS.map((said) => `> ${said}`),
    '',
    'A step comes after everything that it waits for; in brackets, why. What the file does not tell, the list does not know: add it by hand.',
    '',
    ...(stopped.length === 0 ? [] : [...stopped, '']),
    ...circles(sorted),
    ...(sorted.order.length + sorted.stuck.length === 0
      ? ['Nothing is built: the file has no tube that is made.']
      : list(sorted.order, input)),
    '',
    plain(footer(input)),
    '',
  ]
    .filter((line, i, lines) => line !== '' || lines[i - 1] !== '')
    .join('\n');
}

export const orderPapers: Maker = (input): readonly Paper[] => [
  { path: 'order-of-work.md', title: 'Order of work', kind: 'order', parts: [], content: orderText(input) },
];
