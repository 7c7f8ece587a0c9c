/** `structure.roof-level`: members of the basic structure meet the hoop at the level of the roof. */
import { pointAt } from '../../centreline/query';
import { front } from '../examples';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

export const structureRoofLevel: Rule = {
  code: 'structure.roof-level',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.mainHoops().flatMap((hoop) => {
      const { top, crowns } = hoop.figures;
      // Roof level ends where the top corner's bend does.
      const ends = crowns.flatMap((arc, i) =>
        arc === null ? [] : [pointAt(hoop.line, i === 0 ? arc.start : arc.start + arc.length).point[2]],
      );
      if (ends.length === 0) return [];
      const allowed = top - Math.min(...ends);
      return car.landedOn(hoop, 'half-lateral', 'longitudinal').map(({ member, end }): Reading =>
        reading(
          member.name,
          Math.max(0, top - end.at[2]),
          'mm',
          { tube: member.name, host: hoop.name },
          {
            fact: 'path',
            limit: { from: null, to: allowed },
          },
        ),
      );
    }),
  mend: () => ({
    says: "join it above the hoop's top corner",
    ask: ', {book} wants it at roof level, here at most {limit}',
    params: {},
  }),
  explanation: {
    what: 'A half-lateral or longitudinal tube meets the main hoop below the roof.',
    why: 'The roof edge is what comes down on the driver: a tube below it holds nothing up.',
    measured:
      "From the hoop's highest centreline point down to the joint; the book names no figure, so the lower end of the hoop's top corner bend counts.",
    mend: 'Move the end up: `on main-hoop at 20 after crown`.',
    stage: 'hoop',
    bad: `rules fia-253\n${front().replace('on hoop at 20 after crown', 'on hoop at 150 before crown')}`,
    good: `rules fia-253\n${front()}`,
  },
};
