/** Explanations of names, files, facts and waivers. */
import { read } from './explanation';
import type { Explanation } from './explanation';

/** A strap of the harness stage that drops 14 degrees. */
const STEEP =
  'seat low { slots (240, -300, 778); recline 20 deg; slot-spacing 220; back 45 }\n' +
  'strap steep { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }';

export const NAMES = {
  'name.unknown': read(
    'A name stands for nothing in this file or in the files that it uses.',
    'Take the nearest known name, if it is the one that was meant, or write the thing. A name with a hyphen is one name: blanks around a minus make it a sum.',
    'node a = (0, 600, 0)\nnode b = aa + (up 500)',
    'node a = (0, 600, 0)\nnode b = a + (up 500)',
  ),
  'name.twice': read(
    'Two things have the same name.',
    'Rename one of them. Until then the first one counts.',
    'node a = (0, 600, 0)\nnode a = (0, 500, 0)',
    'node a = (0, 600, 0)\nnode b = (0, 500, 0)',
  ),
  'name.cycle': read(
    'Things hang on each other in a circle, so that none of them can be placed first.',
    'Give one of them a place of its own.',
    'node a = b + (up 500)\nnode b = a + (down 500)',
    'node a = (0, 600, 500)\nnode b = a + (down 500)',
  ),
  'name.side': read(
    'The side of a mirrored name is missing outside its mirror, or a side is asked of a thing that has none, or of one that would be its own twin.',
    'Outside mirror write NAME.left or NAME.right; inside, the bare name means the same side.',
    'mirror left { node a = (0, 600, 0) }\nnode b = a + (up 500)',
    'mirror left { node a = (0, 600, 0) }\nnode b = a.left + (up 500)',
  ),
  'name.case': read(
    'A name differs from a known one only in large and small letters.',
    'Write it as it is written where it is named.',
    'node Crown = (0, 600, 0)\nnode b = crown + (up 500)',
    'node Crown = (0, 600, 0)\nnode b = Crown + (up 500)',
  ),
  'name.kind': read(
    'A name is known, but it is another kind of thing than the fact wants.',
    'Name a thing of the right kind: a tube where a tube is wanted, a node where a node is.',
    'node a = (0, 600, 0)\nnode b = (0, -600, 0)\ntube t { section t38; path a, b; first open; last open; existing yes }\nfoot f { at t; plate 100 x 100 x 3 }',
    'node a = (0, 600, 0)\nnode b = (0, -600, 0)\ntube t { section t38; path a, b; last open; existing yes }\nfoot f { at a; plate 100 x 100 x 3; lies square }',
  ),
  'use.missing': read(
    'A used file is not there.',
    'Paths are written from the folder of the file that uses them, with / between folders.',
    'use "seat-that-is-not-there.cage"',
    'use "seat.cage"',
    { files: { 'seat.cage': 'units mm\nlet gap = 2' } },
  ),
  'use.unreadable': read(
    'A used file is there, but no text can be had from it: it is a folder, it is too large, or reading was refused.',
    'Name the file itself, or mend its permissions.',
    'use "seats"',
    'use "seats/driver.cage"',
    {
      files: { 'seats/driver.cage': 'units mm\nlet gap = 2' },
      why: 'What the file would say is not known, so nothing that hangs on it can be judged.',
    },
  ),
  'use.outside': read(
    'A used file lies outside the workspace. It was not read.',
    'Copy it into the workspace, or open the folder that holds both.',
    'use "../elsewhere/seat.cage"',
    'use "seat.cage"',
    {
      files: { 'seat.cage': 'units mm\nlet gap = 2' },
      why: 'A file from a stranger must not be able to look into other folders of your computer.',
    },
  ),
  'use.cycle': read(
    'Files use each other in a circle.',
    'Take one of the use lines out: put what both need into a file that both use.',
    'use "example.cage"',
    'use "seat.cage"',
    { files: { 'seat.cage': 'units mm\nlet gap = 2' } },
  ),
  'kind.unknown': read(
    'The first word of a line is no statement of the language.',
    'Take the nearest word, if it is the one that was meant: node, tube, foot, joint, vent, seat, strap, collar, mirror …',
    'nod a = (0, 600, 0)',
    'node a = (0, 600, 0)',
  ),
  'role.unknown': read(
    'The word after `as` is no role.',
    'Take the nearest role, or leave it out: a tube without a role is a brace.',
    'node a = (0, 600, 0)\nnode b = (0, -600, 0)\ntube t as dashbar { section t38; path a, b; first open; last open }',
    'node a = (0, 600, 0)\nnode b = (0, -600, 0)\ntube t as dash-bar { section t38; path a, b; first open; last open }',
  ),
  'fact.unknown': read(
    'A fact that this kind of thing does not have.',
    'Take the nearest fact, or take the line out. Completion lists the facts of the thing.',
    'section s { od 30; wal 2 }',
    'section s { od 30; wall 2 }',
  ),
  'fact.missing': read(
    'A fact that this kind of thing cannot do without.',
    'Write the fact that the message names.',
    'section s { od 30 }',
    'section s { od 30; wall 2 }',
  ),
  'fact.twice': read(
    'A fact is written twice in one thing. The first one counts.',
    'Take one of them out.',
    'section s { od 30; wall 2; wall 3 }',
    'section s { od 30; wall 2 }',
  ),
  'fact.value': read(
    'The value of a fact cannot be what the fact wants.',
    'Write a value of the kind that the message names.',
    'node a = (0, 600, 0)\nnode b = (0, -600, 0)\ntube t { section t38; path a, b; first open; last open; existing maybe }',
    'node a = (0, 600, 0)\nnode b = (0, -600, 0)\ntube t { section t38; path a, b; first open; last open; existing yes }',
  ),
  'mirror.not-here': read(
    'A statement that cannot be mirrored stands inside mirror.',
    'Move it out of the mirror: what both sides share is written once, outside.',
    'mirror left { let rise = 500 }',
    'let rise = 500',
  ),
  'rule.unknown-book': read(
    'A rulebook is named that neither the tool brings nor a file of the car holds.',
    'Name one that there is: fia-253, shop; or write `rulebook NAME { … }` in a file that this one uses. Without a rules line, shop counts.',
    'rules fia-235',
    'rules fia-253',
    { why: 'A car that is judged by no book looks like a car without faults.' },
  ),
  'waive.unknown': read(
    'A waiver names a code that the tool does not make.',
    'Copy the code from the finding itself.',
    `${STEEP}\nwaive strap.dropp on steep because "measured from the shoulder"`,
    `${STEEP}\nwaive strap.drop on steep because "measured from the shoulder"`,
    { stage: 'harness' },
  ),
  'waive.not-waivable': read(
    'A waiver names a finding without whose mending the car cannot be read or built.',
    'Mend the finding itself. Rule and practice findings alone can be waived.',
    'node a = (0, 600, 0)\nwaive end.loose on a because "looked at"',
    'let a = 1',
  ),
  'waive.unused': read(
    'A waiver waives nothing: what it was written for is gone, or is worse than its bound, or belongs to another book or end.',
    'Take the waiver out, or look again at what it was for.',
    'waive seat.gap on driver because "checked with the seat in"',
    'let looked-at = 1',
    {
      stage: 'harness',
      why: 'A waiver left behind would hide the next fault of the same kind without anybody having looked at it.',
    },
  ),
} as const satisfies Readonly<Record<string, Explanation>>;
