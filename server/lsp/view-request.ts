/** `cagewright/view` and its kin: what the picture beside the text is made from, and what it asks. */
import type { Connection } from 'vscode-languageserver/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../project/project';
import { Viewer } from '../project/view';
import type { Guard } from './guard';
import { packed, sayLine, textPlace, wireModel, type Documents } from './view-places';
import type { MeasureAnswer, Picked, Point3, TryAnswer, ViewWindow, WireModel } from './view-wire';
import type { View, Workspace } from './workspace';

interface Asked {
  readonly textDocument: { readonly uri: string };
  readonly have?: unknown;
  readonly node?: unknown;
  readonly to?: unknown;
  readonly a?: unknown;
  readonly b?: unknown;
}

/** Cars of which the picture's meshes are kept, the one asked for longest ago goes first. */
const KEPT = 4;

/** So many keys can nobody hold; what is beyond them is not read. */
const MOST_KEYS = 50_000;

const entriesOf = (value: unknown): readonly (readonly [string, unknown])[] =>
  typeof value === 'object' && value !== null ? Object.entries(value).slice(0, MOST_KEYS) : [];

/** What is no key is left out: then the mesh is sent. */
const haveOf = (value: unknown): Readonly<Record<string, string>> =>
  Object.fromEntries(
    entriesOf(value).filter((entry): entry is readonly [string, string] => typeof entry[1] === 'string'),
  );

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

/** Farther from the car than this is nothing that a hand drags or picks, mm. */
const FARTHEST = 1e6;

/** Three numbers within reach; null: it is something else. */
const pointOf = (value: unknown): Point3 | null => {
  if (!Array.isArray(value) || value.length !== 3) return null;
  const [x, y, z] = value as readonly unknown[];
  if (!isNumber(x) || !isNumber(y) || !isNumber(z)) return null;
  return Math.max(Math.abs(x), Math.abs(y), Math.abs(z)) > FARTHEST ? null : [x, y, z];
};

const pickedOf = (value: unknown): Picked | null => {
  if (typeof value !== 'object' || value === null || !('id' in value) || !('at' in value)) return null;
  const at = pointOf(value.at);
  return typeof value.id !== 'string' || at === null ? null : { id: value.id, at };
};

/** The texts of a car that is tried out: those that were changed are no document's. */
const triedDocuments = (view: View, trial: Analysis): Documents => {
  const made = new Map<string, TextDocument>();
  return (file) => {
    const was = view.document(file);
    const text = trial.trees.get(file)?.text;
    if (text === undefined || text === was?.getText()) return was;
    const known = made.get(file) ?? TextDocument.create(was?.uri ?? view.space.uriOf(file), 'cage', 0, text);
    made.set(file, known);
    return known;
  };
};

class Viewers {
  private readonly viewers = new Map<string, Viewer>();

  of(uri: string): Viewer {
    const viewer = this.viewers.get(uri) ?? new Viewer(packed);
    this.viewers.delete(uri);
    this.viewers.set(uri, viewer);
    for (const oldest of this.viewers.keys()) {
      if (this.viewers.size <= KEPT) break;
      this.viewers.delete(oldest);
    }
    return viewer;
  }
}

const REFUSED = 'where it shall go cannot be read';

/** Answers with the picture of the car that a document belongs to; null where that is not open. */
export const listenToView = (connection: Connection, guard: Guard, workspace: Workspace): void => {
  const viewers = new Viewers();
  const carOf = async ({ textDocument }: Asked): Promise<View | null> =>
    (await workspace.fullestView(textDocument.uri))?.view ?? null;
  const sayOf = (view: View): ReturnType<typeof sayLine> => sayLine(view.document, view.analysis.root);

  connection.onRequest(
    'cagewright/view',
    guard.request('The picture', 'document', null, async (params: Asked): Promise<WireModel | null> => {
      const view = await carOf(params);
      if (view === null) return null;
      const model = viewers.of(view.uri).model(view.analysis, sayOf(view), haveOf(params.have));
      return wireModel(model, view.document, view.uri, view.version);
    }),
  );
  connection.onRequest(
    'cagewright/viewWindow',
    guard.request('The window', 'document', null, async (params: Asked): Promise<ViewWindow | null> => {
      const view = await carOf(params);
      return view === null ? null : viewers.of(view.uri).window(view.analysis);
    }),
  );
  connection.onRequest(
    'cagewright/measure',
    guard.request('Measuring', 'document', null, async (params: Asked): Promise<MeasureAnswer | null> => {
      const view = await carOf(params);
      const [a, b] = [pickedOf(params.a), pickedOf(params.b)];
      if (view === null || a === null || b === null) return null;
      return viewers.of(view.uri).measure(view.analysis, a, b);
    }),
  );
  connection.onRequest(
    'cagewright/viewTry',
    guard.request('Trying', 'document', null, async (params: Asked): Promise<TryAnswer | null> => {
      const view = await carOf(params);
      if (view === null) return null;
      const to = pointOf(params.to);
      if (typeof params.node !== 'string' || to === null) return { model: null, why: REFUSED, edits: [], says: '' };
      const tried = viewers.of(view.uri).try(view.analysis, params.node, to, sayOf(view), haveOf(params.have));
      const { why, says, car } = tried;
      const documents = car === null ? view.document : triedDocuments(view, car.analysis);
      return {
        model: car === null ? null : wireModel(car.model, documents, view.uri, view.version),
        why,
        says,
        edits: (tried.edits ?? []).flatMap(({ file, span, newText }) => {
          const place = textPlace(view.document, { file, ...span });
          return place === null ? [] : [{ place, text: newText }];
        }),
      };
    }),
  );
};
