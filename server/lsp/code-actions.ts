/**
 * Quick fixes in the protocol's shapes. What is written down in a finding is offered whenever an editor asks; a number is
 * solved only when a person asks, never because the cursor moved.
 */
import {
  CodeActionKind,
  CodeActionTriggerKind,
  LSPErrorCodes,
  ResponseError,
  type CancellationToken,
  type CodeAction,
  type CodeActionContext,
  type Connection,
} from 'vscode-languageserver/node.js';
import type { PlacedFinding } from '../../grammar/finding';
import { findAgain, fixesAt, solvableAt, solvedIndex, solveFix, solveSteps, withSolved } from '../editor/actions';
import type { QuickFix } from '../editor/actions';
import type { Solved, TextEdit } from '../fixes/fixes';
import type { Analysis } from '../project/project';
import { textChanged, workspaceEdit } from './answers';
import type { ClientFeatures } from './client-features';
import { rangeOf, spanOf } from './convert';
import { nextTurn, type Guard } from './guard';
import { openedIn, type View, type Workspace } from './workspace';

/** What a code action carries until it is resolved. */
interface ActionData {
  readonly uri: string;
  readonly version: number;
  readonly id: string;
  readonly code: string;
  readonly subject: string;
  readonly file: string;
  readonly start: number;
  /** Of several findings of one thing at one place (two books, two ends): which one. */
  readonly message: string;
}

const isActionData = (data: unknown): data is ActionData =>
  typeof data === 'object' && data !== null && 'uri' in data && 'id' in data && 'file' in data && 'start' in data;

const cancelled = (): ResponseError<never> => new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled');

/** What was solved for an analysis; it goes when the analysis goes. */
class SolvedOnce {
  private readonly of = new WeakMap<Analysis, Map<PlacedFinding, readonly Solved[]>>();

  /** Solves a finding with a look at what has come in between any two steps. */
  async solve(analysis: Analysis, finding: PlacedFinding, token: CancellationToken): Promise<readonly Solved[]> {
    const known = this.of.get(analysis) ?? new Map<PlacedFinding, readonly Solved[]>();
    this.of.set(analysis, known);
    const old = known.get(finding);
    if (old !== undefined) return old;
    const steps = solveSteps(analysis, finding);
    for (;;) {
      const step = steps.next();
      if (step.done === true) {
        known.set(finding, step.value);
        return step.value;
      }
      await nextTurn();
      if (token.isCancellationRequested) throw cancelled();
    }
  }
}

const wantsQuickFixes = ({ only }: CodeActionContext): boolean =>
  only === undefined || only.some((kind) => CodeActionKind.QuickFix.startsWith(kind));

/** True where a person asked. An editor that does not say asks when it is asked, as the protocol was before it could say. */
const isAsked = ({ triggerKind }: CodeActionContext): boolean => triggerKind !== CodeActionTriggerKind.Automatic;

/** Registers the handlers of quick fixes. */
export function listenToFixes(
  connection: Connection,
  guard: Guard,
  workspace: Workspace,
  features: () => ClientFeatures,
): void {
  const solved = new SolvedOnce();
  const editsOf = async (
    { analysis }: View,
    id: string,
    finding: PlacedFinding,
    token: CancellationToken,
  ): Promise<readonly TextEdit[]> => {
    const index = solvedIndex(id);
    if (index === null) return solveFix(analysis, id, finding);
    return (await solved.solve(analysis, finding, token))[index]?.edits ?? [];
  };

  connection.onCodeAction(
    guard.request('Quick fixes', 'range', [], async ({ textDocument, range, context }, token) => {
      if (!wantsQuickFixes(context)) return [];
      const opened = await openedIn(workspace, textDocument.uri);
      if (opened === null || !features().codeActionLiterals) return [];
      const { view, key, document } = opened;
      const span = spanOf(document, range);
      const found = new Map<PlacedFinding, readonly Solved[]>();
      if (isAsked(context)) {
        for (const finding of solvableAt(view.analysis, key, span))
          found.set(finding, await solved.solve(view.analysis, finding, token));
        // Solving lets changes in, and the editor's document is changed in its place.
        if (!workspace.isCurrent(view, key)) throw textChanged();
      }
      const actionOf = async ({ id, title, preferred, finding }: QuickFix): Promise<CodeAction> => {
        const { code, subject, place, message } = finding;
        const fixed = rangeOf(document, place.span);
        const diagnostics = context.diagnostics.filter(
          (one) =>
            one.code === code &&
            one.range.start.line === fixed.start.line &&
            one.range.start.character === fixed.start.character,
        );
        const { file } = place;
        const { start } = place.span;
        const data: ActionData = { uri: view.uri, version: view.version, id, code, subject, file, start, message };
        const action: CodeAction = { title, kind: CodeActionKind.QuickFix, diagnostics, isPreferred: preferred };
        if (features().resolveCodeActionEdit) return { ...action, data };
        const edit = workspaceEdit(view, await editsOf(view, id, finding, token), workspace, features());
        return edit === null ? action : { ...action, edit };
      };
      return Promise.all(withSolved(view.analysis, fixesAt(view.analysis, key, span), found).map(actionOf));
    }),
  );

  connection.onCodeActionResolve(
    guard.request<CodeAction, CodeAction>('A quick fix', 'nothing', textChanged(), async (action, token) => {
      const data: unknown = action.data;
      if (!isActionData(data)) return action;
      const view = await workspace.view(data.uri);
      const finding = view === null ? null : findAgain(view.analysis, data);
      if (view === null || finding === null || view.version !== data.version) throw textChanged();
      const edit = workspaceEdit(view, await editsOf(view, data.id, finding, token), workspace, features());
      return edit === null ? action : { ...action, edit };
    }),
  );
}
