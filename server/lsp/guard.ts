/** What every request handler is wrapped in: it yields, it gives up when cancelled, and a fault in it is logged and answered. */
import { LSPErrorCodes, ResponseError, type CancellationToken } from 'vscode-languageserver/node.js';

/** Where faults are written: the protocol's log, never standard output. */
export interface Log {
  error(message: string): void;
}

/** Lets what has already arrived (newer changes, cancellations) be handled first. */
export const nextTurn = (): Promise<void> => new Promise((done) => setImmediate(done));

/** Words for a fault, with the stack for whoever reads the log. */
export const describeFault = (fault: unknown): string =>
  fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);

/**
 * Wraps a handler. A cancelled request is answered as cancelled; one that fails is answered with `fallback`, so that
 * one bad turn never takes the server down.
 */
export const guarded =
  <Params, Result>(
    log: Log,
    name: string,
    fallback: Result,
    work: (params: Params, token: CancellationToken) => Result | Promise<Result>,
  ) =>
  async (params: Params, token: CancellationToken): Promise<Result | ResponseError<void>> => {
    await nextTurn();
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled');
    try {
      return await work(params, token);
    } catch (fault) {
      log.error(`${name} failed: ${describeFault(fault)}`);
      return fallback;
    }
  };

/** The same for what nobody waits for: a fault is logged and the server goes on. */
export const guardedEvent =
  <Params>(log: Log, name: string, work: (params: Params) => void) =>
  (params: Params): void => {
    try {
      work(params);
    } catch (fault) {
      log.error(`${name} failed: ${describeFault(fault)}`);
    }
  };
