/** `cage.route`: whether the cage was built by the text of the book, or came with a certificate. */
import { front } from '../examples';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

export const cageRoute: Rule = {
  code: 'cage.route',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null || car.kind() !== 'cage') return [];
    const route = car.cage.vehicle?.cage ?? null;
    if (route === null)
      return missingOfCar(car, 'how the cage came is not written: vehicle { cage self-built }, or asn, or fia');
    return [
      reading(chief.name, 1, '1', { word: route === 'self-built' ? 'built by the text' : route }, { word: route }),
    ];
  },
  mend: () => ({
    says: 'have it certified before anything is welded',
    ask: ', for this car {book} takes only a cage with a certificate',
    params: {},
  }),
  explanation: {
    what: 'The cage is built by the text of the book, and for so young a car the book asks for a certificate.',
    why: 'Shells have become so stiff and so different that a drawing for all cars says too little.',
    measured: 'The fact `cage` of the vehicle, by the day of homologation (or of the first passport).',
    mend: 'Have the cage certified by the ASN or the FIA.',
    stage: 'hoop',
    bad: `rules fia-253\nvehicle { homologated "2021-03-01"; cage self-built }\n${front()}`,
    good: `rules fia-253\nvehicle { homologated "2021-03-01"; cage asn; identified yes }\n${front()}`,
  },
};
