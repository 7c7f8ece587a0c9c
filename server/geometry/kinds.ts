/** The things of a cage by their kind, so that nobody looks at all of them for a few. */
import type { Cage, Collar, Fitting, Foot, Hole, Joint, Seat, Strap, Tube, Vent } from '../cage/cage';

/** In the cage's order. */
export interface Kinds {
  readonly tubes: readonly Tube[];
  readonly feet: readonly Foot[];
  readonly joints: readonly Joint[];
  readonly vents: readonly Vent[];
  readonly seats: readonly Seat[];
  readonly straps: readonly Strap[];
  readonly collars: readonly Collar[];
  readonly holes: readonly Hole[];
  readonly fittings: readonly Fitting[];
}

export function kindsOf(cage: Cage): Kinds {
  const tubes: Tube[] = [];
  const feet: Foot[] = [];
  const joints: Joint[] = [];
  const vents: Vent[] = [];
  const seats: Seat[] = [];
  const straps: Strap[] = [];
  const collars: Collar[] = [];
  const holes: Hole[] = [];
  const fittings: Fitting[] = [];
  for (const thing of cage.things.values()) {
    switch (thing.kind) {
      case 'node':
        break;
      case 'tube':
        tubes.push(thing);
        break;
      case 'foot':
        feet.push(thing);
        break;
      case 'joint':
        joints.push(thing);
        break;
      case 'vent':
        vents.push(thing);
        break;
      case 'seat':
        seats.push(thing);
        break;
      case 'strap':
        straps.push(thing);
        break;
      case 'collar':
        collars.push(thing);
        break;
      case 'hole':
        holes.push(thing);
        break;
      case 'fitting':
        fittings.push(thing);
        break;
      // What has no say in the shape of tubes.
      default:
    }
  }
  return { tubes, feet, joints, vents, seats, straps, collars, holes, fittings };
}
