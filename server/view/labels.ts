/** A thing in a line, for the list beside the picture and for a screen reader. */
import { sayMeasure } from '../../grammar/print';
import type { Plate } from '../cage/hardware';
import type { Part, Shape } from '../geometry/shape';
import type { MeshedThing } from '../mesh/meshes';

const spoken = (word: string): string => word.replaceAll('-', ' ');

export class Labels {
  constructor(private readonly shape: Shape) {}

  private say(value: number): string {
    return sayMeasure({ value, unit: 'mm' }, this.shape.cage.units);
  }

  private bare(value: number): string {
    return this.say(value).replace(/ \D+$/, '');
  }

  private plate(plate: Pick<Plate, 'long' | 'wide' | 'thick'> | null): readonly string[] {
    return plate === null ? [] : [`${this.bare(plate.long)} × ${this.bare(plate.wide)} × ${this.say(plate.thick)}`];
  }

  /** `harness bar, 38 × 2.5 mm, 1204.3 mm long`. */
  private tube({ tube, role, piece, centrelineLength, bends }: Part): readonly string[] {
    const { section } = tube;
    return [
      `${piece === null ? '' : `piece ${piece} of a `}${spoken(role)}${tube.existing ? ', already in the car' : ''}`,
      ...(section === null ? [] : [`${this.bare(section.od)} × ${this.say(section.wall)}`]),
      ...(centrelineLength === null ? [] : [`${this.say(centrelineLength)} long`]),
      ...(bends.length === 0 ? [] : [bends.length === 1 ? '1 bend' : `${String(bends.length)} bends`]),
    ];
  }

  private facts({ id, kind, name }: MeshedThing): readonly string[] {
    const { cage, parts } = this.shape;
    const part = parts.get(name);
    if (part !== undefined && (kind === 'tube' || kind === 'existing-tube')) return this.tube(part);
    if (kind === 'space') {
      const space = this.shape.spaces.find(({ tubes }) => tubes.includes(name));
      return ['space without a vent', (space?.tubes ?? [name]).join(', ')];
    }
    const thing = cage.things.get(name);
    switch (thing?.kind) {
      case 'foot':
        return ['foot', ...this.plate(thing.plate), ...(thing.node === null ? [] : [`at ${thing.node}`])];
      case 'gusset':
        return ['gusset', ...(thing.node === null ? [] : [`at ${thing.node}`])];
      case 'seat':
        return [kind === 'helmet' ? 'helmet of this seat' : 'seat'];
      case 'strap':
        return [
          kind === 'collar' ? 'collar of this strap' : 'shoulder strap',
          ...(thing.tube === null ? [] : [`on ${thing.tube}`]),
        ];
      case 'vent': {
        const to = thing.to === null ? null : typeof thing.to === 'string' ? thing.to : 'the open air';
        return [
          'vent',
          ...(thing.tube === null || to === null ? [] : [`${thing.tube} to ${to}`]),
          ...(thing.dia === null ? [] : [this.say(thing.dia)]),
        ];
      }
      case 'hole':
        return [
          `${thing.purpose} hole`,
          ...(thing.tube === null ? [] : [`in ${thing.tube}`]),
          ...(thing.dia === null ? [] : [this.say(thing.dia)]),
        ];
      case 'padding':
        return [
          'padding',
          ...(thing.tube === null ? [] : [`on ${thing.tube}`]),
          ...(thing.thickness === null ? [] : [this.say(thing.thickness)]),
        ];
      case 'panel':
        return [thing.as === null ? 'panel' : spoken(thing.as)];
      case 'door':
        return ['door opening'];
      case 'fitting':
        return [
          `${thing.made ?? 'removable'} joint`,
          ...(thing.tube === null || thing.end === null ? [] : [`at the ${thing.end} end of ${thing.tube}`]),
          ...(thing.bolt === null ? [] : [`bolt ${this.say(thing.bolt.diameter)}`]),
        ];
      case 'anchor':
        return [`${thing.as ?? 'harness'} anchor`, ...(thing.seat === null ? [] : [`of ${thing.seat}`])];
      case 'collar':
        return ['collar', ...(thing.tube === null ? [] : [`on ${thing.tube}`])];
      default:
        return [spoken(kind), ...(id.endsWith(name) ? [] : [id])];
    }
  }

  /** Statements without a name of their own have only an id: that is not said. */
  of(thing: MeshedThing): string {
    const facts = this.facts(thing).join(', ');
    return /:\d+(\.(left|right))?$/.test(thing.name) ? facts : `${thing.name}: ${facts}`;
  }
}
