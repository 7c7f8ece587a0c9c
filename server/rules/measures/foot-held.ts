/** `foot.held`: how a foot is held to a shell that is not of steel. */
import { footExample, footUses } from '../feet';
import { missing, missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

export const footHeld: Rule = {
  code: 'foot.held',
  unit: '1',
  slack: 0,
  read: (car) => {
    const shell = car.cage.vehicle?.shell ?? null;
    const uses = footUses(car).filter(({ foot }) => foot.on === 'shell');
    if (uses.length === 0) return [];
    if (shell === null) return missingOfCar(car, 'the material of the shell is not written: vehicle { shell steel }');
    if (shell === 'steel') return [];
    return uses.map(({ foot }) => {
      const held = foot.counterPlate?.held ?? null;
      const word =
        foot.welded === true || held === 'welded' ? 'welded' : (held ?? (foot.bolts === null ? null : 'bolted'));
      if (word === null)
        return missing(foot.name, 'how it is held to the shell is not written: counter-plate 160 x 120 x 3 bonded');
      return reading(foot.name, 1, '1', { foot: foot.name, word, shell }, { word });
    });
  },
  mend: () => ({ says: 'bond its reinforcement plate to the shell and bolt the foot to it', params: {} }),
  explanation: {
    what: 'A foot is welded to a shell that is not of steel.',
    why: 'Steel cannot be welded to light alloy or composite, and heat takes the strength out of both.',
    measured:
      "The facts `welded` and `counter-plate … welded` of a foot, where the vehicle's `shell` is aluminium or composite.",
    mend: 'Bond the reinforcement plate, and bolt the foot.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { shell aluminium }\n${footExample('140 x 100 x 3', '; bolts 3 x M8; counter-plate 160 x 120 x 3 welded')}`,
    good: `rules fia-253\nvehicle { shell aluminium }\n${footExample('140 x 100 x 3', '; bolts 3 x M8; counter-plate 160 x 120 x 3 bonded')}`,
  },
};
