/** Completion inside a place or a sum: after `on`, a tube; after `from`, an end of it; in brackets, directions. */
import type { Slot } from '../../grammar/pattern';
import { AXES, DIRECTIONS, FUNCTIONS } from '../../grammar/words';
import { axes, figures, names, phrase, share, unitsOf, word, type Around, type Draft } from './completion-drafts';

/** A number at the end of what is written, which no name ends in (`fia-253`). */
export const ENDS_IN_NUMBER = /(?:^|[\s(,=*/+]|(?<![\p{L}\d_])-|[\d ]x)(?:\d+\/\d+|\d[\d.]*|\.\d+)\s*$/u;

/** A slash that touches a digit is a fraction, half typed. */
const OPERATOR = /(?:[+*]|(?<!\d)\/)\s*$|\s-\s+$/;

/** What stands before the bracket that is open at the end; null where none is. */
const beforeBracket = (before: string): string | null => {
  let depth = 0;
  for (let at = before.length - 1; at >= 0; at -= 1) {
    if (before[at] === ')') depth += 1;
    else if (before[at] === '(' && (depth -= 1) < 0) return before.slice(0, at);
  }
  return null;
};

const places = (around: Around): Draft[] => [...names(around, 'node'), ...figures(around)];

/** In an open bracket: what a function takes, else the directions of a triple. Null outside of brackets. */
const inBrackets = (around: Around, before: string): Draft[] | null => {
  const outside = beforeBracket(before);
  if (outside === null) return null;
  const called = /([\p{L}][\p{L}\d]*)\s*$/u.exec(outside)?.[1] ?? '';
  const entry = Object.hasOwn(FUNCTIONS, called) ? FUNCTIONS[called] : undefined;
  const last =
    before
      .slice(outside.length + 1)
      .split(',')
      .at(-1) ?? '';
  if (last.trim() === '') {
    if (entry?.of === 'places') return places(around);
    if (entry !== undefined) return [...figures(around), ...names(around, 'node')];
    const directions = Object.entries(DIRECTIONS).map(([one, { meaning }]) => word(one, 'word', meaning));
    return [...directions, ...figures(around)];
  }
  if (ENDS_IN_NUMBER.test(last)) return unitsOf([entry === undefined ? 'length' : 'figure']);
  if (OPERATOR.test(last)) return places(around);
  return Object.hasOwn(DIRECTIONS, last.trim()) ? figures(around) : [];
};

/** Names of nodes, those that lie on the tube first. */
const nodesOf = (around: Around, before: string): Draft[] => {
  const all = names(around, 'node');
  const tube = [...before.matchAll(/\bon\s+([^\s,()]+)/gu)].at(-1)?.[1]?.normalize('NFC') ?? '';
  const { things } = around.analysis.cage;
  const thing = things.get(`${tube}.${around.side ?? 'left'}`) ?? things.get(tube);
  if (thing?.kind !== 'tube') return all;
  const path = new Set(thing.path);
  const own = ({ label }: Draft): boolean => path.has(label) || path.has(`${label}.${around.side ?? 'left'}`);
  return [...all.filter(own), ...all.filter((draft) => !own(draft))];
};

/** `(out …, up …)` behind a declared plane. */
const pair = (around: Around, plane: string): Draft[] => {
  const runs = around.analysis.cage.planes.get(plane)?.runs;
  if (runs === undefined) return [];
  const [first, second] = runs === 'across' ? ['out', 'up'] : ['forward', 'up'];
  return [
    {
      ...word('(', 'word', 'measured in the plane, from its `at`', `${first} …, ${second} …`),
      insert: `(${first} \${1:0}, ${second} \${2:0})`,
      snippet: true,
    },
  ];
};

const afterWord = (around: Around, before: string): Draft[] | null => {
  switch (/([\p{L}][\p{L}\d_-]*)\s+$/u.exec(before)?.[1]) {
    case 'on':
    case 'meets':
      return names(around, 'tube');
    case 'in':
      return names(around, 'plane');
    case 'where':
      return /\bon\s+\S+\s+where\s+$/u.test(before) ? axes() : names(around, 'tube');
    case 'from':
    case 'before':
    case 'after':
    case 'mid':
      return nodesOf(around, before);
    case 'near':
    case 'nearest':
    case 'between':
    case 'and':
      return names(around, 'node');
    case 'at':
      return figures(around);
    default:
      return null;
  }
};

/** What goes on inside a place that is begun. Null where the words before say nothing. */
export const insidePlace = (around: Around, before: string): Draft[] | null => {
  const inner = inBrackets(around, before);
  if (inner !== null) return inner;
  // Whole phrases first: no word is reserved, a node may be called `mid`.
  if (/\bon\s+[^\s,]+\s+$/u.test(before)) return phrase('at', 'mid', 'where', 'nearest');
  if (/\bon\s+\S+\s+where\s+[xyz]\s+$/u.test(before)) return [word('=', 'word', 'at this coordinate')];
  if (/\bwhere\s+[^\s,=]+\s+$/u.test(before)) return phrase('meets');
  if (/\bbetween\s+[^\s,]+\s+$/u.test(before)) return phrase('and');
  if (/\band\s+[^\s,]+\s+$/u.test(before)) return phrase('at');
  const inPlane = /(?:^|\s)in\s+([^\s,()]+)\s+$/u.exec(before)?.[1];
  if (inPlane !== undefined) return pair(around, inPlane.normalize('NFC'));
  if (/\bat\s+\S/.test(before) && ENDS_IN_NUMBER.test(before)) {
    const measured = [share(), ...unitsOf(['length'])];
    return /\bon\s+\S+\s+at\b/u.test(before) ? [...phrase('from', 'before', 'after'), ...measured] : measured;
  }
  if (/\bon\b.*=\s*\S/su.test(before) && ENDS_IN_NUMBER.test(before))
    return [...phrase('near'), ...unitsOf(['length'])];
  if (/=\s*$/.test(before)) return figures(around);
  return afterWord(around, before) ?? insideSum(around, before);
};

/** What goes on inside a sum that is begun. */
export const insideSum = (around: Around, before: string): Draft[] | null => {
  const inner = inBrackets(around, before);
  if (inner !== null) return inner;
  return OPERATOR.test(before) || /=\s*$/.test(before) ? places(around) : null;
};

/** The forms that a triple may take: `(aft 350, up 20)`. */
export const triple = (): Draft[] => {
  const directions = Object.keys(DIRECTIONS).join(',');
  return [
    {
      ...word('(', 'word', 'one direction; more behind commas', 'direction …'),
      insert: `(\${1|${directions}|} \${2:0})`,
      snippet: true,
    },
  ];
};

/** Not up or down: what lies in a level plate. */
export const isLevel = ({ label }: Draft): boolean =>
  !Object.hasOwn(DIRECTIONS, label) || DIRECTIONS[label]?.axis !== 'z';

/** The forms that a pair in a level plate may take: `(forward 50, out 30)`. */
export const levelPair = (): Draft[] => [
  {
    ...word('(', 'word', 'where it stands on the plate, from its middle', '(forward …, out …)'),
    insert: '(${1|forward,aft|} ${2:0}, ${3|out,in,left,right|} ${4:0})',
    snippet: true,
  },
];

/** Whether what is written with this slot is a place, with words of its own. */
export const isPlace = ({ type }: Slot): boolean => type === 'place';

/** After `NAME.`: the sides of a mirrored thing, the pieces of a split tube, the coordinates of a place. */
export const afterDot = ({ analysis }: Around, before: string, withCoordinates: boolean): Draft[] | null => {
  const path = /([\p{L}][\p{L}\p{M}\d_-]*(?:\.[\p{L}][\p{L}\d_-]*)*)\.$/u.exec(before)?.[1]?.normalize('NFC');
  if (path === undefined) return null;
  const { things } = analysis.cage;
  const sides = (['left', 'right'] as const).filter((side) => things.has(`${path}.${side}`));
  const thing = things.get(path) ?? things.get(`${path}.left`) ?? things.get(`${path}.right`);
  const pieces = ['a', 'b'].filter((piece) => analysis.shape.parts.has(`${path}.${piece}`));
  const coordinates = thing?.kind === 'node' && withCoordinates ? (['x', 'y', 'z'] as const) : [];
  return [
    ...sides.map((side) => word(side, 'word', `on the car's ${side}`)),
    ...pieces.map((piece) => word(piece, 'word', piece === 'a' ? 'the piece with the first node' : 'the other piece')),
    ...coordinates.map((axis) => word(axis, 'word', AXES[axis])),
  ];
};
