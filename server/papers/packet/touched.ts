/** Which parts an open error touches: by those nobody should cut. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Cage } from '../../cage/cage';
import type { Part, Shape } from '../../geometry/shape';

export interface Touched {
  /** The error itself. */
  readonly finding: PlacedFinding;
  /** In words: `it is about this part`, `this part is cut to main-hoop`. */
  readonly why: string;
}

const isOpenError = ({ severity, waived }: PlacedFinding): boolean => severity === 'error' && !waived;

/** How the links of a circle stand in its sentence. */
const LINK = ' -> ';

/** Every name that an error speaks of. */
const namesIn = ({ subject, params }: PlacedFinding): ReadonlySet<string> =>
  new Set([
    subject,
    ...Object.values(params).flatMap((value): readonly string[] =>
      typeof value === 'string' ? [value, ...value.split(LINK)] : Array.isArray(value) ? value.map(String) : [],
    ),
  ]);

const pieceOf = (name: string): string => name.replace(/\.[ab]$/, '');

/** The names under which an error may mean this part: itself, its tube, its twin, its points, section, feet, straps. */
function namesOf(part: Part, cage: Cage, shape: Shape): ReadonlyMap<string, string> {
  const { tube } = part;
  const names = new Map<string, string>();
  const add = (name: string | null | undefined, why: string): void => {
    if (name !== null && name !== undefined && name !== '' && !names.has(name)) names.set(name, why);
  };
  for (const name of [part.name, tube.name, tube.base]) add(name, 'the error is about this part');
  for (const node of [...part.nodes, ...tube.path]) {
    add(node, `the error is about ${node ?? ''}, a point of this part`);
    // Findings are told at the written one of two twins.
    const base = node?.replace(/\.(left|right)$/, '');
    add(base, `the error is about ${base ?? ''}, a point of this part`);
  }
  for (const end of part.ends)
    if (end.fit === 'foot') for (const foot of end.hosts) add(foot, `the error is about ${foot}, on which it stands`);
  add(tube.section?.name, `the error is about its section ${tube.section?.name ?? ''}`);
  for (const strap of shape.straps)
    if (strap.part === part.name || strap.tube === tube.name) {
      add(strap.name, `the error is about ${strap.name}, which lies on this part`);
      add(strap.seat, `the error is about ${strap.seat ?? ''}, whose straps lie on this part`);
    }
  for (const thing of cage.things.values()) {
    if (thing.kind !== 'tube' && 'tube' in thing && thing.tube === tube.name)
      add(thing.name, 'the error is about what sits on this part');
  }
  return names;
}

/** Of a pair: the error is told at the written twin, and both are touched. */
const twinOf = (name: string): string | null =>
  /\.left(?=$|\.)/.test(name)
    ? name.replace(/\.left(?=$|\.)/, '.right')
    : /\.right(?=$|\.)/.test(name)
      ? name.replace(/\.right(?=$|\.)/, '.left')
      : null;

/** Families of errors that change no tube whatever they say: of books, waivers, prices, the car's dates. */
const CHANGES_NO_TUBE = /^(rule|rulebook|waive|stock|vehicle)\./;

/** In a statement of what the shop has: its sticks, saw, torch. What cannot be read as text may have swallowed other lines. */
const isOfShop = ({ code, place }: PlacedFinding, { storeOrigins }: Cage): boolean =>
  !/^(syntax|kind)\./.test(code) &&
  storeOrigins.some(({ file, statement: { offset, tree } }) => {
    const { start, end } = place.span;
    return place.file === file && start >= offset && end <= offset + tree.text.length;
  });

/** True where the error stands in the text and speaks of no thing that the car has: what is missing, nobody can say. */
const ofTheText = (names: ReadonlySet<string>, known: ReadonlySet<string>): boolean =>
  ![...names].some((name) => known.has(name));

/**
 * Parts that must not be cut yet, by name. An error touches the parts that it names, their twins, the parts whose points,
 * sections, feet or straps it names, and those that are coped to such a part: when it moves, their ends are others. An
 * error that names nothing of the car (a line that cannot be read) touches all parts: what the line was to say may change
 * any of them. Nor is a part cut whose length is not known while an error is open. Errors of books, prices and dates that name no thing, and those in what is told of the
 * shop (sticks, saw, torch), touch nothing, and neither do waived ones.
 */
export function touchedBy(findings: readonly PlacedFinding[], cage: Cage, shape: Shape): ReadonlyMap<string, Touched> {
  const parts = [...shape.parts.values()];
  const names = new Map(parts.map((part) => [part.name, namesOf(part, cage, shape)]));
  const known = new Set([...names.values()].flatMap((of) => [...of.keys()]).concat([...cage.things.keys()]));
  const touched = new Map<string, Touched>();
  const errors = findings.filter((one) => isOpenError(one) && !isOfShop(one, cage));
  for (const finding of errors) {
    const said = namesIn(finding);
    const twins = new Set([...said].flatMap((name) => twinOf(name) ?? []));
    const all = !CHANGES_NO_TUBE.test(finding.code) && ofTheText(said, known);
    for (const part of parts) {
      if (touched.has(part.name)) continue;
      const of = names.get(part.name) ?? new Map<string, string>();
      const met = [...of].find(([name]) => said.has(name)) ?? [...of].find(([name]) => twins.has(name));
      if (met !== undefined) touched.set(part.name, { finding, why: met[1] });
      else if (all) touched.set(part.name, { finding, why: 'what the text was to say there is not known' });
    }
  }
  for (const part of parts) {
    if (touched.has(part.name)) continue;
    const hosts = part.ends.flatMap((end) => (end.fit === 'cope' ? end.hosts : []));
    const host = hosts.find((name) => direct(touched, name));
    const by = host === undefined ? undefined : directOf(touched, host);
    if (host !== undefined && by !== undefined)
      touched.set(part.name, { finding: by.finding, why: `this part is cut to ${host}, which an error touches` });
  }
  const [first] = errors.filter(({ code }) => !CHANGES_NO_TUBE.test(code));
  for (const part of parts)
    if (first !== undefined && !touched.has(part.name) && !part.tube.existing && part.cutLength === null)
      touched.set(part.name, { finding: first, why: 'its length is not known while errors are open' });
  return touched;
}

const isCutTo = ({ why }: Touched): boolean => why.startsWith('this part is cut to ');

/** What moves by itself, not because its own host moves. */
const directOf = (touched: ReadonlyMap<string, Touched>, host: string): Touched | undefined => {
  const found =
    touched.get(host) ?? [...touched].find(([name]) => pieceOf(name) === host && name !== pieceOf(name))?.[1];
  return found === undefined || isCutTo(found) ? undefined : found;
};

const direct = (touched: ReadonlyMap<string, Touched>, host: string): boolean => directOf(touched, host) !== undefined;
