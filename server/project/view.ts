/** The picture of an analysed car, for the panel beside the text: its model, a node tried elsewhere, what is measured. */
import type { Dragged } from '../view/drag';
import { dragged, editedFiles } from '../view/drag';
import { newEndCache } from '../view/ends';
import type { SayPlace } from '../view/grips';
import { measureBetween } from '../view/measure';
import type { MeasureAnswer, Picked, Point3, ViewModel, ViewWindow } from '../view/model';
import { TriedSurfaces } from '../view/surfaces';
import type { Pack } from '../view/wire-mesh';
import { newViewCache, viewOf } from '../view/view';
import { windowOfView } from '../view/window';
import type { Analysis } from './project';

export interface Tried extends Dragged {
  /** What the car would be; its places are those of the changed text. Null: it cannot be moved. */
  readonly car: { readonly analysis: Analysis; readonly model: ViewModel } | null;
}

/** Keys of the things that the asker has, by id. */
export type Have = Readonly<Record<string, string>>;

/** One for each car that is looked at: it keeps what has been worked out for the picture. */
export class Viewer {
  private readonly kept = newViewCache();
  /** A car that is tried out is made of parts of its own. */
  private readonly tried = new TriedSurfaces();
  private readonly triedEnds = newEndCache();
  private readonly windows = new WeakMap<Analysis, ViewWindow | null>();

  /** @param pack numbers as they travel */
  constructor(private readonly pack: Pack) {}

  model(analysis: Analysis, say: SayPlace, have: Have): ViewModel {
    return viewOf(analysis, this.kept, { pack: this.pack, say, have });
  }

  /** Where a harness bar may be; kept, since it takes its time. */
  window(analysis: Analysis): ViewWindow | null {
    const known = this.windows.get(analysis);
    if (known !== undefined) return known;
    const made = windowOfView(analysis);
    this.windows.set(analysis, made);
    return made;
  }

  /** What a tape and an angle gauge would read between two picked things; null: one of them is not there. */
  measure({ shape }: Analysis, a: Picked, b: Picked): MeasureAnswer | null {
    return measureBetween(shape, a, b);
  }

  /** The car with a node of it dragged to a place: the changed text, truly analysed beside the real one. */
  try(analysis: Analysis, node: string, to: Point3, say: SayPlace, have: Have): Tried {
    const drag = dragged(analysis, node, to, say);
    if (drag.edits === null) return { ...drag, car: null };
    if (drag.edits.length === 0) return { ...drag, car: { analysis, model: this.model(analysis, say, have) } };
    const { sources } = analysis;
    const apart = analysis.apart();
    // The car as it stands comes first: what of it is still there then needs no new surface.
    if (!this.tried.isOf(analysis))
      this.tried.hold(analysis, apart.analyse(sources), this.kept.surfaces(analysis.cage, analysis.shape));
    const trial = apart.analyse({ ...sources, files: editedFiles(sources.files, drag.edits) });
    const cache = { surfaces: this.tried.surfaces, ends: this.triedEnds };
    const model = viewOf(trial, cache, { pack: this.pack, say, have });
    return { ...drag, car: { analysis: trial, model } };
  }
}
