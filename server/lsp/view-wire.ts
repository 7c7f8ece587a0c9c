/** What the panel asks of the server and what it is answered: the model of `view/model.ts` with places as editors count them. */
import type {
  MeasureAnswer,
  Picked,
  Point3,
  ViewFinding,
  ViewMark,
  ViewModel,
  ViewNode,
  ViewThing,
  ViewWindow,
} from '../view/model';

/** Lines and UTF-16 characters from 0, as the protocol counts them. */
export interface TextPlace {
  readonly uri: string;
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

export type WireThing = ViewThing<TextPlace>;
export type WireNode = ViewNode<TextPlace>;
export type WireFinding = ViewFinding<TextPlace>;
export type { MeasureAnswer, Picked, Point3, ViewMark, ViewWindow };

export interface WireModel extends ViewModel<TextPlace> {
  /** The judged car's document. */
  readonly uri: string;
  /** Of that document when it was judged. */
  readonly version: number | null;
}

/** `cagewright/view`, answered with a `WireModel`; null: that document is no car's. */
export interface ViewParams {
  readonly textDocument: { readonly uri: string };
  /** Keys of meshes by id that the asker holds: these are not sent again. */
  readonly have: Readonly<Record<string, string>>;
}

/** `cagewright/viewWindow`, answered with a `ViewWindow`; null: no strap lies on any bar, or nothing can be said. */
export interface WindowParams {
  readonly textDocument: { readonly uri: string };
}

/** `cagewright/judged`: an open document was judged anew, ask again. Sent where `initializationOptions` say `view: true`. */
export interface JudgedParams {
  readonly uri: string;
}

/** `cagewright/viewTry`: what the car would be with a node elsewhere. Nothing is written. */
export interface TryParams extends ViewParams {
  readonly node: string;
  readonly to: Point3;
}
export interface TryAnswer {
  /** Null: it cannot be moved so; `why` says why, in a sentence. */
  readonly model: WireModel | null;
  readonly why: string | null;
  /** What letting go writes, in the document's newest version. */
  readonly edits: readonly { readonly place: TextPlace; readonly text: string }[];
  /** `x 420, z 815`: in the units of the file, rounded as written. */
  readonly says: string;
}

/** `cagewright/measure`, answered with a `MeasureAnswer`; null: one of the two is not in the car. */
export interface MeasureParams {
  readonly textDocument: { readonly uri: string };
  readonly a: Picked;
  readonly b: Picked;
}
/**
 * `cagewright/export`: drawings and the model for other programs, as the command line writes them; answered with an
 * `ExportAnswer`. Null: there is nothing to draw.
 */
export interface ExportParams {
  readonly textDocument: { readonly uri: string };
  readonly kind: 'plan' | 'side' | 'front' | 'glb';
  readonly version: string;
}
export interface ExportAnswer {
  /** A name to begin with: `car.side.svg`. */
  readonly name: string;
  /** Base64 of the file. */
  readonly content: string;
}
