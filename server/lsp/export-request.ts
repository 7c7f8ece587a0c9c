/** `cagewright/export`: a drawing of the car, or all of it for other programs, with the bytes that the command line writes. */
import { posix } from 'node:path';
import type { Connection } from 'vscode-languageserver/node.js';
import type { Analysis } from '../project/project';
import { carGlb } from '../project/picture';
import { isBlank, viewSvg } from '../project/report';
import type { Guard } from './guard';
import type { ExportAnswer } from './view-wire';
import type { Workspace } from './workspace';

interface Asked {
  readonly textDocument: { readonly uri: string };
  readonly kind?: unknown;
  /** Of the extension, for who made the file. */
  readonly version?: unknown;
}

const VIEWS = ['plan', 'side', 'front'] as const;

/** Ending and bytes; null: no such kind, or there is nothing to draw. */
async function fileOf(
  analysis: Analysis,
  kind: unknown,
  maker: string,
): Promise<{ readonly ending: string; readonly bytes: Uint8Array } | null> {
  const view = VIEWS.find((one) => one === kind);
  if (view !== undefined)
    return isBlank(analysis) ? null : { ending: `${view}.svg`, bytes: Buffer.from(viewSvg(analysis, view), 'utf8') };
  const bytes = kind === 'glb' ? await carGlb(analysis, maker) : null;
  return bytes === null ? null : { ending: 'glb', bytes };
}

/** Answers with the file for the newest text; null where the document is not open, or there is nothing to draw. */
export const listenToExport = (connection: Connection, guard: Guard, workspace: Workspace): void => {
  connection.onRequest(
    'cagewright/export',
    guard.request('The export', 'document', null, async (params: Asked): Promise<ExportAnswer | null> => {
      const analysis = (await workspace.fullestView(params.textDocument.uri))?.view.analysis ?? null;
      if (analysis === null) return null;
      const maker = typeof params.version === 'string' ? `Cagewright ${params.version}` : 'Cagewright';
      const file = await fileOf(analysis, params.kind, maker);
      if (file === null) return null;
      const name = posix.basename(analysis.root).replace(/\.cage$/i, '');
      return { name: `${name}.${file.ending}`, content: Buffer.from(file.bytes).toString('base64') };
    }),
  );
};
