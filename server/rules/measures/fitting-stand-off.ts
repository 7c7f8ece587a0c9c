/** `fitting.stand-off`: from the surface that a pinned joint stands on to its bolt. */
import { figure } from '../../geometry/tell';
import { stays } from '../examples';
import { fittingUses } from '../fittings';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

/** Joints whose bolt crosses the tube's end beside what it lands on. */
const PINNED: ReadonlySet<string> = new Set(['clevis', 'lug']);

const pinned = (standOff: number): string =>
  `${stays()}\nmirror left { fitting pin { tube stay first; kind clevis; shear double; bolt M12 8.8; stand-off ${String(standOff)} } }`;

export const fittingStandOff: Rule = {
  code: 'fitting.stand-off',
  unit: 'mm',
  slack: 0.05,
  read: (car) =>
    fittingUses(car).flatMap(({ fitting, member, end }): readonly Item[] => {
      if (fitting.made === null || !PINNED.has(fitting.made)) return [];
      const { standOff, bolt } = fitting;
      if (standOff === null)
        return [
          missing(fitting.name, "how far its bolt stands from the host's centreline is not written: stand-off 35"),
        ];
      const host = end.hosts.map((name) => car.member(name)).find((one) => one !== null) ?? null;
      const [od, hostOd] = [member.tube.section?.od ?? null, host === null ? 0 : (host.tube.section?.od ?? null)];
      if (od === null || hostOd === null) return [];
      const params = { fitting: fitting.name, tube: member.name, od: figure(od, 'mm') };
      const limit = { from: bolt === null ? null : 1.5 * bolt.diameter, to: od };
      return [reading(fitting.name, standOff - hostOd / 2, 'mm', params, { fact: 'stand-off', limit })];
    }),
  mend: (item, target) => ({
    says: item.measured.value > target ? 'bring it {by~} nearer' : 'set it {by~} farther out',
    params: { by: figure(Math.abs(item.measured.value - target), 'mm') },
  }),
  explanation: {
    what: 'The bolt of a clevis or a lug stands far from what it is welded to, or so near that there is no metal round it.',
    why: 'The farther the bolt stands off, the more a load across the tube bends the lugs and their welds; nearer than one and a half of its diameters the hole tears out.',
    measured:
      "The fact `stand-off`, less the radius of the tube that it stands on, against the outside diameter of the tube that it holds and one and a half times the bolt's.",
    mend: 'Make the lugs shorter, or leave them longer, and cut the tube to suit.',
    stage: 'hoop',
    bad: pinned(75),
    good: pinned(45),
  },
};
