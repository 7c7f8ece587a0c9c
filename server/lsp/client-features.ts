/** What the client can do, read once from its `initialize`. */
import type { ClientCapabilities, InitializeParams } from 'vscode-languageserver/node.js';

export interface ClientFeatures {
  /** Problems are asked for by the client (`textDocument/diagnostic`); otherwise they are sent. Never both for a document. */
  readonly pullDiagnostics: boolean;
  readonly refreshDiagnostics: boolean;
  readonly relatedInformation: boolean;
  readonly snippets: boolean;
  readonly labelDetails: boolean;
  readonly documentChanges: boolean;
  readonly resolveCodeActionEdit: boolean;
  readonly codeActionLiterals: boolean;
  readonly hierarchicalSymbols: boolean;
  readonly markdownHover: boolean;
  readonly definitionLinks: boolean;
  readonly watchFiles: boolean;
  readonly workspaceFolders: boolean;
  /** Our own extension reads files of other file systems for the server. */
  readonly readFiles: boolean;
  /** Under which scheme our own extension shows the page of a finding's code; null: the client has no such pages. */
  readonly explainScheme: string | null;
  /** Our own extension shows a picture, and wants to be told when a car was judged anew. */
  readonly view: boolean;
}

/** Whether an object of the client's says `name: true`. */
const isOffered = (options: unknown, name: string): boolean =>
  typeof options === 'object' && options !== null && (options as Readonly<Record<string, unknown>>)[name] === true;

const schemeOf = (options: unknown): string | null => {
  const scheme: unknown =
    typeof options === 'object' && options !== null && 'explainScheme' in options ? options.explainScheme : null;
  return typeof scheme === 'string' && /^[a-z][a-z\d+.-]*$/.test(scheme) ? scheme : null;
};

export const readClientFeatures = ({ capabilities, initializationOptions }: InitializeParams): ClientFeatures => {
  const { textDocument, workspace } = (capabilities as ClientCapabilities | undefined) ?? {};
  return {
    pullDiagnostics: textDocument?.diagnostic !== undefined,
    refreshDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    // Clients that ask for problems say it in the same place; 3.18 gave them one of their own.
    relatedInformation:
      textDocument?.publishDiagnostics?.relatedInformation === true ||
      isOffered(textDocument?.diagnostic, 'relatedInformation'),
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    labelDetails: textDocument?.completion?.completionItem?.labelDetailsSupport === true,
    documentChanges: workspace?.workspaceEdit?.documentChanges === true,
    resolveCodeActionEdit:
      textDocument?.codeAction?.dataSupport === true &&
      textDocument.codeAction.resolveSupport?.properties.includes('edit') === true,
    codeActionLiterals: textDocument?.codeAction?.codeActionLiteralSupport !== undefined,
    hierarchicalSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    markdownHover: textDocument?.hover?.contentFormat?.includes('markdown') !== false,
    definitionLinks: textDocument?.definition?.linkSupport === true,
    watchFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    readFiles: isOffered(initializationOptions, 'readFiles'),
    explainScheme: schemeOf(initializationOptions),
    view: isOffered(initializationOptions, 'view'),
  };
};
