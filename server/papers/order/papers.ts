/** The order of work: Markdown with boxes to tick, each step with what it waits for and why. */
import { CAUTIONS, footer, header, markupMark } from '../packet/marks';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { outOfCarOf } from '../weld/out';
import type { Link, Need, Sorted, Step } from './graph';
import { sortSteps } from './graph';
import { stepsOf } from './steps';

/** A file's words as words: nothing in them is read as Markdown or HTML. */
export const plain = (text: string): string => text.replace(/[\\`*_[\]<>#|&~]/g, '\\$&').replace(/\s+/g, ' ');

/** Needs with the same reason stand together: `3, 4: it is cut to them`. */
function reasons(needs: readonly Need[], numberOf: ReadonlyMap<string, number>): string | null {
  const by = new Map<string, number[]>();
  for (const { on, why } of needs) {
    const number = numberOf.get(on);
    if (number === undefined) continue;
    const numbers = by.get(why) ?? [];
    if (!numbers.includes(number)) numbers.push(number);
    by.set(why, numbers);
  }
  if (by.size === 0) return null;
  return [...by]
    .map(([why, numbers]) => `after ${numbers.sort((a, b) => a - b).join(', ')} (${plain(why)})`)
    .join('; ');
}

/** `cope 03 backstay waits for fit 02 hoop: it is cut to it`. */
const linkWords = (link: Link, doesOf: ReadonlyMap<string, string>): string =>
  `- "${plain(doesOf.get(link.step) ?? link.step)}" waits for "${plain(doesOf.get(link.on) ?? link.on)}": ${plain(link.why)}`;

function circles({ cycles, stuck }: Sorted): readonly string[] {
  if (cycles.length === 0) return [];
  const doesOf = new Map(stuck.map(({ id, does }) => [id, does]));
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
      : ['Waiting behind a circle, in no order:', '', ...behind.map(({ does }) => `- ${plain(does)}`), '']),
  ];
}

function list(order: readonly Step[]): readonly string[] {
  const numberOf = new Map(order.map(({ id }, i) => [id, i + 1]));
  let group = '';
  return order.flatMap((step, i) => {
    const heading = step.group === group ? [] : [...(i === 0 ? [] : ['']), `## ${step.group}`, ''];
    group = step.group;
    const why = reasons(step.needs, numberOf);
    return [...heading, `- [ ] **${String(i + 1)}.** ${plain(step.does)}`, ...(why === null ? [] : [`      ${why}`])];
  });
}

export function orderText(input: PacketInput): string {
  const sorted = sortSteps(stepsOf(input, outOfCarOf(input)));
  const stopped = [...input.numbers.values()].flatMap(({ name, label }) => {
    const by = input.touched.get(name);
    return by === undefined ? [] : [`- **STOP: do not cut ${plain(label)}**: ${plain(by.why)} (${by.finding.code})`];
  });
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
    ...list(sorted.order),
    '',
    plain(footer(input)),
    '',
  ].join('\n');
}

export const orderPapers: Maker = (input): readonly Paper[] => [
  { path: 'order-of-work.md', title: 'Order of work', kind: 'order', parts: [], content: orderText(input) },
];
