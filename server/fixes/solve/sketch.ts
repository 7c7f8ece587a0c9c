/**
 * A shape that is quick to have: centrelines, straps and seats as they really are, while the ends stay on whom they were
 * before. Good enough to look for a number with; whatever is found is verified on the whole shape.
 */
import type { Cage } from '../../cage/cage';
import type { Finding } from '../../../grammar/finding';
import { bendFindings } from '../../geometry/bends';
import { seatsOf } from '../../geometry/seats';
import type { Part, SeatFigures, Shape, StrapFigures } from '../../geometry/shape';
import { strapsOf } from '../../geometry/straps';

/** Called once; what it gave is kept. */
function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}

/** Pieces of a split tube are where the whole tube was cut: their own centrelines stay as they were. */
function partsOf(cage: Cage, before: Shape): ReadonlyMap<string, Part> {
  const parts = new Map<string, Part>();
  for (const [name, part] of before.parts) {
    const tube = cage.things.get(part.tube.name);
    if (tube?.kind !== 'tube') continue;
    const centreline = part.piece === null ? tube.centreline : part.centreline;
    parts.set(name, tube === part.tube ? part : { ...part, tube, centreline });
  }
  return parts;
}

/** The shape of a changed cage, from the whole shape of the car before. Its findings are those of straps and bends alone. */
export function sketchOf(cage: Cage, before: Shape): Shape {
  const parts = partsOf(cage, before);
  const laid = lazily(() => strapsOf(cage, parts));
  const seats = lazily((): readonly SeatFigures[] => seatsOf(cage, parts, laid().straps).seats);
  const findings = lazily((): readonly Finding[] => {
    const at = (name: string | null): ReturnType<typeof placeIn> => placeIn(cage, name);
    const bends = [...cage.things.values()].flatMap((thing) =>
      thing.kind === 'tube' ? bendFindings(thing, thing.path.map(at)) : [],
    );
    return [...cage.findings, ...laid().findings, ...bends];
  });
  return {
    cage,
    parts,
    get seats(): readonly SeatFigures[] {
      return seats();
    },
    get straps(): readonly StrapFigures[] {
      return laid().straps;
    },
    spaces: before.spaces,
    mass: null,
    get findings(): readonly Finding[] {
      return findings();
    },
  };
}

function placeIn(cage: Cage, name: string | null): readonly [number, number, number] | null {
  const thing = name === null ? undefined : cage.things.get(name);
  return thing?.kind === 'node' ? thing.at : null;
}
