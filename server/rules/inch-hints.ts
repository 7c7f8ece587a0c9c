/** How a missing fact is written, in a file of inches: the examples of the messages, with what an American shop has at hand. */
import type { LengthUnit } from '../../grammar/units';

/** By what stands in the messages. */
const HINTS: Readonly<Record<string, string>> = {
  'mass 980 kg': 'mass 2160 lb',
  'driver 85 kg': 'driver 190 lb',
  'yield 360 MPa; tensile 490 MPa': 'yield 70 ksi; tensile 80 ksi',
  'bolts 3 x M8 8.8': 'bolts 3 x 3/8 in grade 5',
  'bolts 3 x M8': 'bolts 3 x 3/8 in',
  '4 x M8 8.8': '4 x 5/16 in grade 5',
  '… M8 8.8': '… 3/8 in grade 5',
  'bolt M12 8.8': 'bolt 1/2 in grade 8',
  'counter-plate 140 x 100 x 5': 'counter-plate 6 x 6 x 3/16',
  'counter-plate 160 x 120 x 3': 'counter-plate 6 x 6 x 1/8',
  '80 x 60 x 3': '3 x 2 1/2 x 1/8',
  '(forward 50, out 35), (forward 50, in 35), (aft 50, out 0)':
    '(forward 2, out 1 3/8), (forward 2, in 1 3/8), (aft 2, out 0)',
  'shoulder (forward 110, up 35)': 'shoulder (forward 4 1/2, up 1 1/2)',
  'elbow (forward 250, down 220)': 'elbow (forward 10, down 8 1/2)',
  'helmet (forward 60, up 280) radius 150': 'helmet (forward 2 1/2, up 11) radius 6',
  'hip (275, 345, 262)': 'hip (11, 13 1/2, 10 1/4)',
  'shoulder-width 480': 'shoulder-width 19',
  '{ from 600; dia 5 }': '{ from 24; dia 3/16 }',
  'thickness 25': 'thickness 1',
  'thickness 26': 'thickness 1',
  'thickness 1.5': 'thickness 1/16',
  'legs 120 x 120': 'legs 5 x 5',
  'stand-off 35': 'stand-off 1 3/8',
  'slider 10': 'slider 3/8',
  'tail 120': 'tail 5',
  'adjuster 260': 'adjuster 10 1/4',
  'adjuster 60': 'adjuster 2 1/2',
  'load 15 kN': 'load 3400 lbf',
  '(1760, 455, 640)': '(69, 18, 25)',
  '(-900, 480, 560)': '(-35, 19, 22)',
  '(500, 330, 560), (950, 330, 420)': '(20, 13, 22), (37, 13, 17)',
};

const escaped = (text: string): string => text.replace(/[.()[\]{}+*?^$|\\]/g, '\\$&');
const PATTERN = new RegExp(
  Object.keys(HINTS)
    .sort((a, b) => b.length - a.length)
    .map(escaped)
    .join('|'),
  'g',
);

/** The words of a missing fact, for a file in these units. */
export const hintIn = (fact: string, units: LengthUnit): string =>
  units === 'in' ? fact.replace(PATTERN, (hint) => HINTS[hint] ?? hint) : fact;
