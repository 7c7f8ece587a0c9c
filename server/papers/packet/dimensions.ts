/** The main dimensions of a car's tubes: over everything, and of its hoops, as the drawings have them. */
import { overallBox } from '../../drawing/drawing';
import type { ViewName } from '../../drawing/view';
import { VIEWS } from '../../drawing/view';
import type { Part } from '../../geometry/shape';
import { onTape } from '../on-tape';
import type { PacketInput } from './paper';

/** Name and figure in both systems, as they are printed. */
export function mainDimensions({ shape, units, numbers }: PacketInput): readonly (readonly [string, string])[] {
  const all = [...shape.parts.values()];
  const made = all.filter(({ tube }) => !tube.existing);
  const size = (parts: readonly Part[], view: ViewName): { readonly across: string; readonly up: string } => {
    const box = overallBox(parts, VIEWS[view]);
    return {
      across: onTape(box === null ? null : box.right - box.left, units),
      up: onTape(box === null ? null : box.bottom - box.top, units),
    };
  };
  const [side, front] = [size(all, 'side'), size(all, 'front')];
  const hoops = made
    .filter(({ role }) => role === 'main-rollbar' || role === 'front-rollbar')
    .map((part): readonly [string, string] => {
      const { across, up } = size([part], 'front');
      return [numbers.get(part.name)?.label ?? part.name, `${across} wide, ${up} high`];
    });
  const total = made.reduce<number | null>(
    (sum, { cutLength }) => (sum === null || cutLength === null ? null : sum + cutLength),
    0,
  );
  return [
    ['Length over the tubes, outside', side.across],
    ['Width over the tubes, outside', front.across],
    ['Height over the tubes, outside', side.up],
    ...hoops,
    ['Parts that are made', String(made.length)],
    ['Their cut lengths together, without kerf', onTape(total, units)],
  ];
}
