/** The language server over standard input and output, for the command line. */
import {
  createConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';
import { startServer } from './server';

/** Serves until the client goes away. Standard output belongs to the protocol meanwhile. */
export const serveStdio = (): Promise<void> =>
  new Promise((done) => {
    process.stdin.once('end', () => done());
    const [reader, writer] = [new StreamMessageReader(process.stdin), new StreamMessageWriter(process.stdout)];
    startServer(createConnection(ProposedFeatures.all, reader, writer));
  });
