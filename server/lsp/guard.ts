/**
 * What every handler is wrapped in: it answers only between `initialize` and `shutdown`, it refuses malformed
 * parameters, it yields, it gives up when cancelled, and a fault in it is logged and answered.
 */
import { ErrorCodes, LSPErrorCodes, ResponseError, type CancellationToken } from 'vscode-languageserver/node.js';

/** Where faults are written: the protocol's log, never standard output. */
export interface Log {
  error(message: string): void;
}

/** Lets what has already arrived (newer changes, cancellations) be handled first. */
export const nextTurn = (): Promise<void> => new Promise((done) => setImmediate(done));

/** Words for a fault, with the stack for whoever reads the log. */
export const describeFault = (fault: unknown): string =>
  fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);

/** What a request's parameters must hold: a document, a place in it, a range of it. */
export type Needs = 'nothing' | 'document' | 'position' | 'range';

const field = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>)[name] : undefined;

const isCount = (value: unknown): boolean => Number.isInteger(value) && Number(value) >= 0;

const isPosition = (value: unknown): boolean => isCount(field(value, 'line')) && isCount(field(value, 'character'));

/** What is missing in a request's parameters, in words; null where nothing is. */
const missingIn = (params: unknown, needs: Needs): string | null => {
  if (needs === 'nothing') return null;
  if (typeof field(field(params, 'textDocument'), 'uri') !== 'string') return 'textDocument.uri must be a string.';
  if (needs === 'position' && !isPosition(field(params, 'position')))
    return 'position must have a line and a character, both whole numbers from 0.';
  const range = field(params, 'range');
  if (needs === 'range' && !(isPosition(field(range, 'start')) && isPosition(field(range, 'end'))))
    return 'range must have a start and an end, each with a line and a character.';
  return null;
};

export class Guard {
  private state: 'new' | 'serving' | 'down' = 'new';

  constructor(private readonly log: Log) {}

  /** To be asked once, by `initialize`. */
  begin(): ResponseError<never> | null {
    if (this.state !== 'new')
      return new ResponseError(ErrorCodes.InvalidRequest, 'The server has been initialized already.');
    this.state = 'serving';
    return null;
  }

  /** After `shutdown` nothing is answered any more. */
  end(): void {
    this.state = 'down';
  }

  private refusal(params: unknown, needs: Needs): ResponseError<never> | null {
    if (this.state === 'new')
      return new ResponseError(ErrorCodes.ServerNotInitialized, 'The server has not been initialized yet.');
    if (this.state === 'down') return new ResponseError(ErrorCodes.InvalidRequest, 'The server has been shut down.');
    const missing = missingIn(params, needs);
    return missing === null ? null : new ResponseError(ErrorCodes.InvalidParams, missing);
  }

  /**
   * Wraps the handler of a request. A cancelled one is answered as cancelled; one that fails is answered with `fallback`,
   * so that one bad turn never takes the server down. A handler refuses by throwing a `ResponseError`.
   */
  request<Params, Result, Failure = never>(
    name: string,
    needs: Needs,
    fallback: Result | ResponseError<Failure>,
    work: (params: Params, token: CancellationToken) => Result | Promise<Result>,
  ): (params: Params, token: CancellationToken) => Promise<Result | ResponseError<Failure>> {
    return async (params, token) => {
      const refusal = this.refusal(params, needs);
      if (refusal !== null) return refusal;
      await nextTurn();
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled');
      try {
        return await work(params, token);
      } catch (fault) {
        if (fault instanceof ResponseError) return fault as ResponseError<never>;
        this.log.error(`${name} failed: ${describeFault(fault)}`);
        return fallback;
      }
    };
  }

  /** The same for what nobody waits for: a fault is logged and the server goes on. */
  event<Params>(name: string, work: (params: Params) => void): (params: Params) => void {
    return (params) => {
      try {
        work(params);
      } catch (fault) {
        this.log.error(`${name} failed: ${describeFault(fault)}`);
      }
    };
  }
}
