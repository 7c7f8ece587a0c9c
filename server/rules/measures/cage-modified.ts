/** `cage.modified`: what is welded to a tube that is already in the car, of a cage that has a certificate. */
import type { Car, Member } from '../car';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

const there = (car: Car, name: string | null): boolean => name !== null && car.member(name)?.tube.existing === true;

/** The tube already in the car to which a new one is welded; null: there is none. */
const oldHost = ({ tube, ends }: Member, car: Car): string | null =>
  tube.existing ? null : (ends.flatMap(({ hosts }) => hosts).find((host) => there(car, host)) ?? null);

/** New things that are welded to tubes which are already in the car. */
function addedTo(car: Car): readonly { readonly thing: string; readonly host: string }[] {
  // In most cars every tube is new.
  if (!car.keep(anyExisting)) return [];
  const tubes = car.members().flatMap((member) => {
    const host = car.ask(oldHost, member);
    return host === null ? [] : [{ thing: member.name, host }];
  });
  const gussets = car.ofKind('gusset').flatMap(({ name, between }) => {
    const host = (between ?? []).find((one) => there(car, one)) ?? null;
    return host === null ? [] : [{ thing: name, host }];
  });
  return [...tubes, ...gussets];
}

const anyExisting = (car: Car): boolean => car.tubes().some(({ existing }) => existing);

const IN_CAR =
  'node a = (0, 700, 0)\nnode b = (0, 700, 900)\nnode c = (0, -700, 0)\nnode d = (0, -700, 900)\ntube left as main-rollbar { section t45; path a, b; first open; last open; existing yes }\ntube right as main-rollbar { section t45; path c, d; first open; last open; existing yes }\nnode e = on left at 50 %\nnode f = on right at 50 %\ntube bar as transverse { section t38; path e, f }';

export const cageModified: Rule = {
  code: 'cage.modified',
  unit: '1',
  slack: 0,
  read: (car) => {
    const found = addedTo(car);
    const [first] = found;
    if (first === undefined) return [];
    if ((car.cage.vehicle?.cage ?? null) === null)
      return missingOfCar(
        car,
        'whether the cage that is in the car has a certificate is not written: vehicle { cage self-built }, or asn, or fia',
      );
    return found.map(({ thing, host }) => reading(thing, car.certified() ? 1 : 0, '1', { thing, host }));
  },
  mend: () => ({
    says: 'have its maker do it, or fix it to new tubes only',
    ask: ', {book} allows no welding on a certified cage',
    params: {},
  }),
  explanation: {
    what: 'Something is welded to a cage that has a certificate.',
    why: 'With the first weld the certificate is gone: its strength was proved as it came.',
    measured:
      "Ends of new tubes on tubes that are `existing yes`, and gussets between them, where the vehicle's `cage` is asn or fia.",
    mend: 'Leave the cage as it is, or let its maker change it.',
    stage: 'parts',
    bad: `rules fia-253\nvehicle { cage asn; identified yes }\n${IN_CAR}`,
    good: `rules fia-253\nvehicle { cage self-built }\n${IN_CAR}`,
  },
};
