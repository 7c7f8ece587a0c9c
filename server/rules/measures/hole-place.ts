/** `hole.place`: how far a hole for inspection is from the nearest weld and the nearest bend, along its tube. */
import type { Car, Member } from '../car';
import { reading } from '../readings';
import type { Rule } from '../rule';
import { bendsOf, coveredBy } from '../welds';
import { inspectionHoles } from './hole-inspection';

/** Stretches along the tube that are a weld, or a bend. */
function taken(
  car: Car,
  { tube, line }: Member,
): readonly { readonly what: string; readonly from: number; readonly to: number }[] {
  const whole = car.shape.parts.get(tube.name);
  if (whole === undefined) return [];
  const radius = (tube.section?.od ?? 0) / 2;
  const welds = car.weldsOn(whole.name).flatMap((weld) => {
    const print = coveredBy(weld);
    return print === null ? [] : [{ what: `the weld of ${weld.part.name}`, ...print }];
  });
  const ends = whole.ends.flatMap((end) => {
    if (end.fit !== 'cope' && end.fit !== 'foot') return [];
    const reach = Math.max(end.maxCut ?? 0, 0);
    return end.which === 'first'
      ? [{ what: 'its first end', from: 0, to: reach }]
      : [{ what: 'its last end', from: line.length - reach, to: line.length }];
  });
  const bends = bendsOf(whole).map(({ start, length }) => ({ what: 'a bend', from: start, to: start + length }));
  return radius > 0 ? [...welds, ...ends, ...bends] : [];
}

export const holePlace: Rule = {
  code: 'hole.place',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    inspectionHoles(car).flatMap(({ hole, member }) => {
      const { station } = hole;
      if (station === null) return [];
      const near = taken(car, member)
        .map(({ what, from, to }) => ({ what, far: Math.max(0, from - station, station - to) }))
        .sort((a, b) => a.far - b.far)[0];
      return near === undefined
        ? []
        : [reading(hole.name, near.far, 'mm', { tube: member.name, what: near.what }, { fact: 'from' })];
    }),
  mend: (item, target) => ({
    says: 'move it {by~} away',
    params: { by: { value: target - item.measured.value, unit: 'mm' } },
  }),
  explanation: {
    what: 'A hole for inspection lies close to a weld or a bend.',
    why: 'There the tube is worked hardest; and the wall that is read there is not the wall of the tube.',
    measured:
      "Along the tube's centreline, from the middle of the hole to the nearest edge of a weld and the nearest tangent of a bend.",
    mend: 'Drill it in the middle of a straight stretch.',
    stage: 'hoop',
    bad: 'rules shop\nhole hoop for inspection { from 50; dia 5 }',
    good: 'rules shop\nhole hoop for inspection { from 500; dia 5 }',
  },
};
