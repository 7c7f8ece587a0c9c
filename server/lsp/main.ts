/** The language server as a program: over Node's own channel from the extension, or `--stdio` from any editor. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { startServer } from './server';

startServer(createConnection(ProposedFeatures.all));
