/** What keys do on the picture; the list of them that the panel shows is this same table. */
import { takesKeys } from './dom';

export interface Deeds {
  turn(right: number, up: number): void;
  pan(right: number, up: number): void;
  zoom(factor: number): void;
  view(name: 'plan' | 'side' | 'front' | 'free'): void;
  parallel(): void;
  frame(all: boolean): void;
  measure(): void;
  section(): void;
  nudge(right: number, up: number, coarse: boolean): void;
  enter(): void;
  undo(): void;
  escape(): void;
  /** X, Y or Z went down or up; true when a drag took it. */
  hold(key: string, down: boolean): boolean;
  finding(step: number): void;
  help(): void;
}

const TURN = Math.PI / 36;
const PAN = 40;
const NEARER = 0.87;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Which way an arrow key points, to the right and upward; null: it is none. */
export const arrowOf = (key: string): readonly [number, number] | null => ARROWS[key] ?? null;

interface Row {
  /** As they are written in the list. */
  readonly keys: string;
  readonly does: string;
  readonly of: readonly string[];
  readonly run: (deeds: Deeds) => void;
}

const ROWS: readonly Row[] = [
  {
    keys: '+ −',
    does: 'nearer, farther',
    of: ['+', '='],
    run: (d) => {
      d.zoom(NEARER);
    },
  },
  {
    keys: '',
    does: '',
    of: ['-', '_'],
    run: (d) => {
      d.zoom(1 / NEARER);
    },
  },
  {
    keys: '1',
    does: 'Plan',
    of: ['1'],
    run: (d) => {
      d.view('plan');
    },
  },
  {
    keys: '2',
    does: 'Side',
    of: ['2'],
    run: (d) => {
      d.view('side');
    },
  },
  {
    keys: '3',
    does: 'Front',
    of: ['3'],
    run: (d) => {
      d.view('front');
    },
  },
  {
    keys: '0',
    does: 'Free',
    of: ['0'],
    run: (d) => {
      d.view('free');
    },
  },
  {
    keys: 'P',
    does: 'parallel or perspective',
    of: ['p'],
    run: (d) => {
      d.parallel();
    },
  },
  {
    keys: 'A',
    does: 'all of the car in the picture',
    of: ['a'],
    run: (d) => {
      d.frame(true);
    },
  },
  {
    keys: 'F',
    does: 'what is picked in the picture',
    of: ['f'],
    run: (d) => {
      d.frame(false);
    },
  },
  {
    keys: 'N  B',
    does: 'next finding, the one before',
    of: ['n'],
    run: (d) => {
      d.finding(1);
    },
  },
  {
    keys: '',
    does: '',
    of: ['b'],
    run: (d) => {
      d.finding(-1);
    },
  },
  {
    keys: 'M',
    does: 'measure',
    of: ['m'],
    run: (d) => {
      d.measure();
    },
  },
  {
    keys: 'S',
    does: 'section plane on or off',
    of: ['s'],
    run: (d) => {
      d.section();
    },
  },
  {
    keys: 'Enter',
    does: 'write the moved node; go to the text of what is picked',
    of: ['Enter'],
    run: (d) => {
      d.enter();
    },
  },
  {
    keys: 'Esc',
    does: 'put a dragged node back; pick nothing',
    of: ['Escape'],
    run: (d) => {
      d.escape();
    },
  },
  {
    keys: '?',
    does: 'this list',
    of: ['?'],
    run: (d) => {
      d.help();
    },
  },
];

/** Keys and what they do, for the list in the panel. */
export const KEY_LIST: readonly (readonly [string, string])[] = [
  ['Arrows', 'turn'],
  ['Shift + arrows', 'shift the picture'],
  ...ROWS.filter(({ keys }) => keys !== '').map(({ keys, does }) => [keys, does] as const),
  ['Alt + arrows', 'move the picked node by 1 mm or 1/16 in, as the picture is seen'],
  ['Alt + Shift + arrows', 'move it ten times as far'],
  ['Ctrl or Cmd + Z', 'take the last drag back'],
  ['X, Y or Z while dragging', 'only along that axis'],
  ['Shift while dragging', 'in steps ten times as long'],
];

export const MOUSE_LIST: readonly (readonly [string, string])[] = [
  ['Drag', 'turn; one finger on a touch screen'],
  ['Right button, middle button or Shift + drag', 'shift the picture; two fingers'],
  ['Wheel or pinch', 'nearer and farther, toward the pointer'],
  ['Click', 'pick, and the cursor goes there in the text'],
  ['Double click', 'go on in the text'],
  ['Drag a full round handle', 'move that node; hollow ones hang on something else'],
];

/** Listens on the picture. */
export function watchKeys(element: HTMLElement, deeds: Deeds): void {
  element.addEventListener('keydown', (event) => {
    if (takesKeys(event.target)) return;
    if (event.ctrlKey || event.metaKey) {
      if (event.key.toLowerCase() === 'z' && !event.shiftKey && !event.altKey) deeds.undo();
      return;
    }
    const arrow = arrowOf(event.key);
    const used = arrow ? byArrow(arrow, event) : !event.altKey && byKey(event.key);
    if (!used) return;
    event.preventDefault();
    event.stopPropagation();
  });
  element.addEventListener('keyup', (event) => {
    deeds.hold(event.key, false);
  });
  const byArrow = ([right, up]: readonly [number, number], event: KeyboardEvent): boolean => {
    if (event.altKey) deeds.nudge(right, up, event.shiftKey);
    else if (event.shiftKey) deeds.pan(right * PAN, up * PAN);
    else deeds.turn(right * TURN, up * TURN);
    return true;
  };
  const byKey = (key: string): boolean => {
    if (deeds.hold(key, true)) return true;
    const row = ROWS.find(({ of }) => of.includes(key.length === 1 ? key.toLowerCase() : key));
    row?.run(deeds);
    return row !== undefined;
  };
}
