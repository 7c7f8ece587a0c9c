/** Explanations of what cannot be read: characters, strings, braces, numbers and units. */
import { read } from './explanation';
import type { Explanation } from './explanation';

export const TEXT = {
  'syntax.unexpected': read(
    'A word, number or sign stands where the line cannot take it.',
    'Take it out, or put the piece before it that is missing. Nothing else on the page is hurt by this line.',
    'node a = (0, 600, 0) )',
    'node a = (0, 600, 0)',
  ),
  'syntax.missing': read(
    'The line stops, or goes on, before a piece that it needs.',
    'Write the missing piece.',
    'node a = (0, 600,',
    'node a = (0, 600, 0)',
  ),
  'syntax.character': read(
    'A character has no meaning in a cage file.',
    'Take it out. Comments begin with #, multiplication is *, a list of sizes is written with x.',
    'node a = (0, 600, 0) ?',
    'node a = (0, 600, 0)',
  ),
  'syntax.string': read(
    'A text in quotation marks does not end on its line.',
    'Close it with " on the same line; a quotation mark inside is written \\".',
    'waive strap.length on a because "looked at',
    'let a = 1',
  ),
  'syntax.brace': read(
    "A '{' has no '}' before the next statement or the end of the file.",
    "Write '}' on a line of its own after the last fact.",
    'section extra {\n  od 30\n  wall 2\nnode a = (0, 600, 0)',
    'section extra {\n  od 30\n  wall 2\n}\nnode a = (0, 600, 0)',
    {
      why: 'Without it, nobody can tell which facts belong to which thing. The statement is closed where the next one begins, so that the rest can still be read.',
    },
  ),
  'syntax.brace-close': read(
    "A '}' stands where nothing is open.",
    "Take it out, or write the '{' that it should close behind the head of its statement.",
    'node a = (0, 600, 0)\n}',
    'node a = (0, 600, 0)',
  ),
  'syntax.nesting': read(
    'Brackets, braces or minus signs are nested deeper than 200.',
    'Nobody writes this by hand: look for a program or a copy gone wrong.',
    `let a = ${'('.repeat(201)}1${')'.repeat(201)}`,
    'let a = (1)',
    { measured: 'The depth of brackets, braces and signs, counted before the text is read any further.' },
  ),
  'syntax.decimal-comma': read(
    'A number is written with a comma for its decimals.',
    'Write a point: 2.5. The comma separates the numbers of a place.',
    'section s { od 30; wall 2,5 }',
    'section s { od 30; wall 2.5 }',
  ),
  'syntax.degree-sign': read(
    'An angle is written with the sign for degrees.',
    'Write the unit as a word: 15 deg.',
    'plane lean { at (0, 0, 0); runs across; leans 6° aft }',
    'plane lean { at (0, 0, 0); runs across; leans 6 deg aft }',
  ),
  'syntax.inch-sign': read(
    'A length is written with the sign for inches, which here begins a text.',
    'Write the unit as a word: 1.5 in.',
    'let w = 1.5"',
    'let w = 1.5 in',
  ),
  'number.mixed-fraction': read(
    'A mixed fraction is written with a hyphen: 1-1/2. That could be one and a half, or one minus a half.',
    'Write a blank for one and a half, 1 1/2; or blanks around a minus, 1 - 1/2.',
    'let w = 1-1/2 in',
    'let w = 1 1/2 in',
    { why: 'The two readings are an inch apart, and both look right on the page.' },
  ),
  'number.fraction-after-division': read(
    "A fraction stands directly after '/': a / 1/2 could be read two ways.",
    'Put the fraction in brackets: a / (1/2).',
    'let w = 30 / 1/2',
    'let w = 30 / (1/2)',
    { why: 'The two readings differ by a factor of four.' },
  ),
  'number.range': read(
    'A number is too large to be read, or cannot be meant here: a plate of no size, a share of more than the whole.',
    'Write the size that was meant.',
    'section s { od -30; wall 2 }',
    'section s { od 30; wall 2 }',
  ),
  'number.arithmetic': read(
    'A sum has no answer: a division by zero, a root of a negative number, a result that no number can hold.',
    'Look at the figures that go into it; hover over a name to see its value.',
    'let w = 30 / (2 - 2)',
    'let w = 30 / 2',
  ),
  'unit.unknown': read(
    'A word directly after a number is no unit.',
    'Lengths are mm cm m in ft, angles deg rad, masses kg lb, forces N kN lbf, stresses MPa ksi.',
    'section s { od 30 mmm; wall 2 }',
    'section s { od 30 mm; wall 2 }',
  ),
  'unit.dimension': read(
    'A quantity of the wrong kind: an angle where a length is wanted, a length added to an angle.',
    'Write the unit that was meant, or look at the names in the sum: hover shows what each one is.',
    'section s { od 30 deg; wall 2 }',
    'section s { od 30; wall 2 }',
  ),
  'unit.mixed': read(
    'Plain numbers of two files with different units meet in one sum.',
    'Give one of them its unit: let gap = 2 in.',
    'use "inches.cage"\nlet both = 10 + gap\nnode a = (0, 600, both)',
    'use "inches.cage"\nlet both = 10 mm + gap\nnode a = (0, 600, both)',
    {
      files: { 'inches.cage': 'units in\nlet gap = 2' },
      why: 'Ten and two are twelve, but ten millimetres and two inches are not.',
    },
  ),
  'unit.inch-after-angle': read(
    "'in' stands directly after an angle. It could be inches, or the direction toward the centreline.",
    'Give the angle its unit: yaw 3 deg in.',
    'seat s { slots (240, 300, 750); recline 10; yaw 3 in; slot-spacing 220; back 45 }',
    'seat s { slots (240, 300, 750); recline 10; yaw 3 deg in; slot-spacing 220; back 45 }',
  ),
} as const satisfies Readonly<Record<string, Explanation>>;
