/** The editor's features in the protocol's shapes. Plain data comes in with offsets, and leaves with lines and characters. */
import {
  CompletionItemKind,
  FoldingRangeKind,
  InsertTextFormat,
  LSPErrorCodes,
  ResponseError,
  SymbolKind,
  type CompletionItem,
  type DocumentSymbol,
  type FoldingRange,
  type SymbolInformation,
  type TextDocumentEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/node.js';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Completion, CompletionKind } from '../editor/completion';
import type { Fold } from '../editor/folding';
import type { OutlineSymbol, SymbolKind as OutlineKind } from '../editor/symbols';
import type { TextEdit as SpanEdit } from '../fixes/fix';
import type { ClientFeatures } from './client-features';
import { rangeOf } from './convert';
import type { View, Workspace } from './workspace';

const ITEM_KINDS: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  statement: CompletionItemKind.Keyword,
  fact: CompletionItemKind.Property,
  word: CompletionItemKind.Keyword,
  unit: CompletionItemKind.Unit,
  function: CompletionItemKind.Function,
  role: CompletionItemKind.EnumMember,
  code: CompletionItemKind.EnumMember,
  file: CompletionItemKind.File,
  node: CompletionItemKind.Variable,
  tube: CompletionItemKind.Struct,
  thing: CompletionItemKind.Field,
  let: CompletionItemKind.Constant,
  plane: CompletionItemKind.Interface,
  material: CompletionItemKind.Class,
  section: CompletionItemKind.Class,
  die: CompletionItemKind.Class,
};

/** Completions keep the order in which they come. */
export const completionItem = (
  document: TextDocument,
  completion: Completion,
  index: number,
  features: ClientFeatures,
): CompletionItem => {
  const { label, kind, detail, meaning, span } = completion;
  const snippet = completion.snippet && features.snippets;
  return {
    label,
    kind: ITEM_KINDS[kind],
    sortText: String(index).padStart(5, '0'),
    textEdit: { range: rangeOf(document, span), newText: snippet || !completion.snippet ? completion.insert : label },
    insertTextFormat: snippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    ...(detail === '' ? {} : features.labelDetails ? { labelDetails: { description: detail }, detail } : { detail }),
    ...(meaning === '' ? {} : { documentation: meaning }),
  };
};

const SYMBOL_KINDS: Readonly<Record<OutlineKind, SymbolKind>> = {
  car: SymbolKind.Module,
  file: SymbolKind.File,
  setting: SymbolKind.Property,
  value: SymbolKind.Constant,
  place: SymbolKind.Variable,
  tube: SymbolKind.Struct,
  material: SymbolKind.Class,
  tool: SymbolKind.Class,
  thing: SymbolKind.Object,
  mirror: SymbolKind.Namespace,
};

export const documentSymbol = (document: TextDocument, symbol: OutlineSymbol): DocumentSymbol => ({
  name: symbol.name,
  kind: SYMBOL_KINDS[symbol.kind],
  detail: symbol.detail,
  range: rangeOf(document, symbol.span),
  selectionRange: rangeOf(document, symbol.nameSpan),
  children: symbol.children.map((child) => documentSymbol(document, child)),
});

/** The same for clients that know no trees. */
export const flatSymbols = (
  document: TextDocument,
  symbols: readonly OutlineSymbol[],
  container = '',
): SymbolInformation[] =>
  symbols.flatMap((symbol) => [
    {
      name: symbol.name,
      kind: SYMBOL_KINDS[symbol.kind],
      location: { uri: document.uri, range: rangeOf(document, symbol.nameSpan) },
      ...(container === '' ? {} : { containerName: container }),
    },
    ...flatSymbols(document, symbol.children, symbol.name),
  ]);

const FOLD_KINDS: Readonly<Record<Fold['kind'], FoldingRangeKind | null>> = {
  block: null,
  comment: FoldingRangeKind.Comment,
  imports: FoldingRangeKind.Imports,
};

export const foldingRanges = (document: TextDocument, folds: readonly Fold[]): FoldingRange[] =>
  folds.flatMap(({ span, kind }) => {
    const { start, end } = rangeOf(document, span);
    // The closing brace stays in sight.
    const endLine = kind === 'block' ? end.line - 1 : end.line;
    if (endLine <= start.line) return [];
    const named = FOLD_KINDS[kind];
    return [{ startLine: start.line, endLine, ...(named === null ? {} : { kind: named }) }];
  });

/** What somebody gets who asked about a text that has been changed since. */
export const textChanged = (): ResponseError<never> =>
  new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed meanwhile.');

/**
 * Edits of several files, with the version of those that are open, so that nothing is written over a newer text. Throws
 * {@link textChanged} where a text is no longer the one that was analysed: its places would be wrong in the new one.
 */
export const workspaceEdit = (
  view: View,
  edits: readonly SpanEdit[],
  workspace: Workspace,
  features: ClientFeatures,
): WorkspaceEdit | null => {
  const byFile = new Map<string, TextEdit[]>();
  for (const { file, span, newText } of edits) {
    const document = view.document(file);
    if (document === null) return null;
    if (!workspace.isCurrent(view, file)) throw textChanged();
    const list = byFile.get(file) ?? [];
    list.push({ range: rangeOf(document, span), newText });
    byFile.set(file, list);
  }
  const documents = [...byFile].map(([file, list]) => ({ uri: view.space.uriOf(file), edits: list }));
  return documentEdits(documents, workspace, features);
};

/** The edits of documents in the form that the client takes. */
export const documentEdits = (
  documents: readonly { readonly uri: string; readonly edits: TextEdit[] }[],
  workspace: Workspace,
  features: ClientFeatures,
): WorkspaceEdit => {
  if (!features.documentChanges)
    return { changes: Object.fromEntries(documents.map(({ uri, edits }) => [uri, edits])) };
  const documentChanges: TextDocumentEdit[] = documents.map(({ uri, edits }) => ({
    textDocument: { uri, version: workspace.versionOf(uri) },
    edits,
  }));
  return { documentChanges };
};
