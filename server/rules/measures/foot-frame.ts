/** `foot.frame`: whether the legs of the main hoop stand on the frame, where the car has one. */
import { footUses } from '../feet';
import { TWO_BENDS } from '../hoop-examples';
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

const FRAME = 'whether the car has a frame is not written: vehicle { frame no }';

export const footFrame: Rule = {
  code: 'foot.frame',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] => {
    const feet = footUses(car).filter(({ group }) => group === 'hoop foot');
    if (feet.length === 0) return [];
    const frame = car.cage.vehicle?.frame ?? null;
    if (frame === null) return missingOfCar(car, FRAME);
    if (!frame) return [];
    return feet.map(({ foot }) =>
      reading(foot.name, foot.on === 'frame' ? 1 : 0, '1', { foot: foot.name }, { fact: 'on' }),
    );
  },
  mend: () => ({ says: 'attach it to the frame, and write on frame', ask: ', {book} wants the frame', params: {} }),
  explanation: {
    what: 'A leg of the hoop stands on the floor of a car that has a frame.',
    why: 'The body is held to the frame by a few bolts in rubber: in a roll the hoop goes with the body.',
    measured:
      "The fact `on` of the hoop's feet, where the vehicle has `frame yes`. Connectors between the subframes of a unibody are no frame.",
    mend: 'Attach the bar to the frame.',
    stage: 'parts',
    bad: `rules nhra
vehicle { frame yes }
${TWO_BENDS()}`,
    good: `rules nhra
vehicle { frame yes }
${TWO_BENDS().replace('hole 8', 'on frame; hole 8')}`,
  },
};
