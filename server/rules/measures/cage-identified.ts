/** `cage.identified`: a certified cage bears its maker's plate. */
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

export const cageIdentified: Rule = {
  code: 'cage.identified',
  unit: '1',
  slack: 0,
  read: (car) => {
    const vehicle = car.cage.vehicle;
    const chief = car.chief();
    if (chief === null || vehicle === null || !car.certified()) return [];
    const group = vehicle.cage ?? '';
    if (vehicle.identified === null)
      return missingOfCar(car, "whether the cage bears its maker's plate is not written: vehicle { identified yes }", {
        group,
      });
    return [reading(chief.name, vehicle.identified ? 1 : 0, '1', {}, { group })];
  },
  mend: () => ({ says: 'ask its maker for one', ask: ', {book} wants one that cannot be copied or moved', params: {} }),
  explanation: {
    what: 'A cage with a certificate bears no plate of its maker.',
    why: 'Without its number nobody can tell which certificate is meant.',
    measured:
      'The facts `cage` and `identified` of the vehicle: for cages certified by an ASN that were sold from 2003 on, by the FIA from 1997 on.',
    mend: 'Fit the plate that came with it.',
    stage: 'hoop',
    bad: 'rules fia-253\nvehicle { cage asn; identified no }',
    good: 'rules fia-253\nvehicle { cage asn; identified yes }',
  },
};
