/** `cagewright/packet`: the shop papers of the car that a document belongs to, written into a folder of the disk. */
import { createHash } from 'node:crypto';
import { join, posix } from 'node:path';
import type { Connection } from 'vscode-languageserver/node.js';
import { writeFolder } from '../host/write-folder';
import { rangeOf } from './convert';
import { pathOfUri } from './folders';
import type { Guard } from './guard';
import type { Workspace } from './workspace';

export interface PacketAnswer {
  /** Why nothing was written; null: it was. */
  readonly why: string | null;
  /** The front page, absolute. */
  readonly page: string;
  readonly papers: number;
  /** Findings at error that are not waived. */
  readonly errors: number;
  /** Parts that they touch: without templates. */
  readonly stopped: number;
}

interface PacketParams {
  readonly textDocument: { readonly uri: string };
  /** URI of the folder that was picked: the papers go into `car-papers` in it, or into itself where it is called so. */
  readonly folder?: unknown;
  /** Writes over what the tool has not made. */
  readonly force?: unknown;
  /** Of the extension. */
  readonly version?: unknown;
}

const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

/** `car-papers` for `car.cage`. */
const folderName = (root: string): string => `${posix.basename(root).replace(/\.cage$/i, '')}-papers`;

/** Answers when all papers stand, for the newest text; null where the document is not open or the folder is no disk's. */
export const listenToPacket = (connection: Connection, guard: Guard, workspace: Workspace): void => {
  connection.onRequest(
    'cagewright/packet',
    guard.request('The shop papers', 'document', null, async (params: PacketParams): Promise<PacketAnswer | null> => {
      const picked = typeof params.folder === 'string' ? pathOfUri(params.folder) : null;
      const found = await workspace.fullestView(params.textDocument.uri);
      if (found === null || picked === null) return null;
      const { view } = found;
      const { analysis } = view;
      // Loaded only here: the server starts without it.
      const { packetOf, isPacketPaper } = await import('../project/packet');
      const packet = packetOf(analysis, {
        hashOf: sha256,
        placeOf: ({ place }) => {
          const document = view.document(place.file);
          return document === null
            ? place.file
            : `${place.file}:${String(rangeOf(document, place.span).start.line + 1)}`;
        },
        maker: typeof params.version === 'string' ? `Cagewright ${params.version}` : 'Cagewright',
      });
      const name = folderName(analysis.root);
      const folder = posix.basename(picked.replaceAll('\\', '/')) === name ? picked : join(picked, name);
      const answer = await writeFolder({
        folder,
        files: packet.papers,
        mine: isPacketPaper,
        unfinished: packet.unfinished,
        force: params.force === true,
      });
      return {
        why: answer.kind === 'refused' ? answer.why : null,
        page: join(folder, packet.papers.at(-1)?.path ?? ''),
        papers: packet.papers.length,
        errors: analysis.findings.filter(({ waived, severity }) => !waived && severity === 'error').length,
        stopped: packet.errorsTouch.size,
      };
    }),
  );
};
