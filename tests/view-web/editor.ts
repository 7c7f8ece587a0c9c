/**
 * An editor with one car in memory for the page under test: the real conversation, the real judging, no window round it.
 * What would touch the outside is written down instead, for the test to look at.
 */
import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Conversation } from '../../client/view/conversation';
import type { ToView } from '../../client/view/messages';
import { hover } from '../../server/editor/hover';
import { packed, sayLine, textPlace, wireModel } from '../../server/lsp/view-places';
import type { TextPlace, WireModel } from '../../server/lsp/view-wire';
import { Project } from '../../server/project/pipeline';
import type { Analysis, Host } from '../../server/project/project';
import { Viewer } from '../../server/project/view';

export interface Editor {
  readonly heard: (message: unknown) => Promise<void>;
  /** Where the cursor was put last. */
  readonly cursor: () => { readonly line: string; readonly focus: boolean } | null;
  readonly text: () => string;
  /** Changes the text, as if it were typed. */
  readonly type: (from: string, to: string) => Promise<void>;
  readonly undo: () => Promise<void>;
  /** Puts the cursor at the beginning of a piece of text. */
  readonly goTo: (piece: string) => void;
  readonly copied: () => string | null;
  readonly saved: () => Uint8Array | null;
  readonly heardTypes: () => readonly string[];
  /** The whole model, as it is sent to a page that has nothing yet. */
  readonly model: () => WireModel;
}

const SAMPLES = 'samples';

/** Opens a car's file; `post` brings messages to the page. */
export async function openEditor(root: string, path: string, post: (message: ToView) => void): Promise<Editor> {
  const folder = join(root, dirname(path));
  const file = basename(path);
  const uriOf = (name: string) => `file:///${SAMPLES}/${name}`;
  const host: Host = {
    read: (_from, name) => {
      try {
        return Promise.resolve({ kind: 'file', file: name, text: readFileSync(join(folder, name), 'utf8') });
      } catch {
        return Promise.resolve({ kind: 'missing', file: name });
      }
    },
  };
  const project = new Project();
  const viewer = new Viewer(packed);
  let text = readFileSync(join(root, path), 'utf8');
  const before: string[] = [];
  let version = 1;
  let analysis: Analysis = project.analyse(await project.load(host, file, text));
  let cursor: { line: string; focus: boolean } | null = null;
  let copied: string | null = null;
  let saved: Uint8Array | null = null;
  const types: string[] = [];

  const documents = (of: Analysis) => (name: string) => {
    const tree = of.trees.get(name);
    return tree ? TextDocument.create(uriOf(name), 'cage', version, tree.text) : null;
  };
  const say = (of: Analysis) => sayLine(documents(of), of.root);
  const wired = (of: Analysis, model: Parameters<typeof wireModel>[0]) =>
    wireModel(model, documents(of), uriOf(file), version);
  const change = async (next: string) => {
    before.push(text);
    text = next;
    version += 1;
    analysis = project.analyse(await project.load(host, file, text));
    conversation.changed();
  };
  const lineAt = (place: TextPlace) => {
    const of = documents(analysis)(place.uri.split('/').at(-1) ?? '');
    return of?.getText().split('\n')[place.start.line] ?? '';
  };

  const conversation: Conversation = new Conversation(
    {
      post,
      model: (have) => Promise.resolve(wired(analysis, viewer.model(analysis, say(analysis), have))),
      window: () => Promise.resolve(viewer.window(analysis)),
      pause: () => new Promise((done) => setTimeout(done, 50)),
      tryMove: (node, to, have) => {
        const { car, why, says, edits } = viewer.try(analysis, node, to, say(analysis), have);
        return Promise.resolve({
          model: car && wired(car.analysis, car.model),
          why,
          says,
          edits: (edits ?? []).flatMap(({ file: name, span, newText }) => {
            const place = textPlace(documents(analysis), { file: name, ...span });
            return place ? [{ place, text: newText }] : [];
          }),
        });
      },
      measure: (a, b) => Promise.resolve(viewer.measure(analysis, a, b)),
      stamp: () => String(version),
      write: async (edits) => {
        const document = TextDocument.create(uriOf(file), 'cage', version, text);
        await change(
          TextDocument.applyEdits(
            document,
            edits.map(({ place, text: newText }) => ({ range: place, newText })),
          ),
        );
        return true;
      },
      undo: async () => {
        await change(before.pop() ?? text);
        return 'Taken back.';
      },
      reveal: (place, focus) => {
        cursor = { line: lineAt(place), focus };
        return Promise.resolve();
      },
      hover: (place) => {
        const name = place.uri.split('/').at(-1) ?? '';
        const offset = documents(analysis)(name)?.offsetAt(place.start) ?? 0;
        return Promise.resolve(hover(analysis, name, offset)?.markdown ?? '');
      },
      copy: (words) => {
        copied = words;
        return Promise.resolve();
      },
      savePicture: (png) => {
        saved = png;
        return Promise.resolve('The picture is written.');
      },
      save: (kind) => Promise.resolve(`car.${kind} is written.`),
      sameFile: (a, b) => a === b,
    },
    { uri: uriOf(file), name: file },
  );

  return {
    heard: (message) => {
      if (typeof message === 'object' && message !== null && 'type' in message) types.push(String(message.type));
      return conversation.heard(message);
    },
    cursor: () => cursor,
    text: () => text,
    type: (from, to) => change(text.replace(from, to)),
    undo: () => change(before.pop() ?? text),
    goTo: (piece) => {
      const document = TextDocument.create(uriOf(file), 'cage', version, text);
      const at = document.positionAt(text.indexOf(piece));
      conversation.cursorMoved({ uri: uriOf(file), at }, true);
    },
    copied: () => copied,
    saved: () => saved,
    heardTypes: () => types,
    model: () => wired(analysis, viewer.model(analysis, say(analysis), {})),
  };
}
