/** What the dealer sells of each section and what lies in the rack, the saw and the torch: what a shop has and papers need. */
import { captured, type Match } from '../../grammar/shape-check';
import type { Length } from '../../grammar/units';
import { LENGTH, PLAIN } from '../../grammar/units';
import type { Cage, Saw, SoldLength, Stock, Torch } from './cage';
import type { Bound } from './facts';
import { isValue, quantityOf } from './facts';
import type { Written } from './names';
import type { Page } from './page';

/** Kinds that are read here. */
export const STORE_KINDS: ReadonlySet<string> = new Set(['stock', 'saw', 'torch']);

/**
 * Reads what stands in all files; of two of one section, of two saws and of two torches, the first counts, in the order of
 * the files. `written`: of those kinds.
 */
export function readStore(
  written: readonly Written[],
  pageOf: (written: Written) => Page,
): Pick<Cage, 'stocks' | 'saw' | 'torch' | 'storeOrigins'> {
  const stocks = new Map<string, Stock>();
  const firsts = new Map<string, Written>();
  let saw: Saw | null = null;
  let torch: Torch | null = null;
  for (const one of written) {
    if (one.inMirror) continue;
    const page = pageOf(one);
    if (one.kind !== 'stock') {
      const first = firsts.get(one.kind) ?? one;
      firsts.set(one.kind, first);
      tellElsewhere(one, first, written, page);
      if (one.kind === 'saw') saw ??= sawOf(one, page);
      else torch ??= torchOf(one, page);
      continue;
    }
    const section = page.name('', 'section');
    const stock = stockOf(one, page, section ?? '');
    if (section === null) continue;
    if (stocks.has(section)) page.tellAt(page.bound('', 'section'), 'stock.twice', { section });
    else stocks.set(section, stock);
  }
  return { stocks, saw, torch, storeOrigins: written.map(({ origin }) => origin) };
}

/** Of two in one file the vocabulary tells; here those that stand in two files, once a file. */
function tellElsewhere(one: Written, first: Written, written: readonly Written[], page: Page): void {
  const [file, kind] = [one.scope.file, one.kind];
  if (first.scope.file === file) return;
  if (written.find((other) => other.kind === kind && other.scope.file === file) !== one) return;
  page.tell(one.entry.line.word.span, 'fact.twice', { name: kind }, [
    { scope: first.scope, span: first.entry.line.word.span, message: `'${kind}' is written here first.` },
  ]);
}

const sawOf = ({ origin }: Written, page: Page): Saw => ({
  vice: page.length('vice'),
  kerf: page.length('kerf'),
  reach: page.angle('reach', 'reach', 90),
  origin,
});

function torchOf({ origin }: Written, page: Page): Torch {
  const stickOut = page.length('stick-out');
  const told = page.length('reach');
  const short = told !== null && stickOut !== null && told <= stickOut;
  if (short) page.tellAt(page.bound('reach'), 'fact.value', { fact: 'reach', wanted: 'more than the stick-out' });
  return {
    nozzle: page.length('nozzle'),
    reach: short ? null : told,
    stickOut: short ? null : stickOut,
    lean: page.angle('lean', 'lean', 90),
    origin,
  };
}

function stockOf(written: Written, page: Page, section: string): Stock {
  const lines = written.read.many.flatMap(({ fact, match }) =>
    fact.name === 'length' && match !== null ? [match] : [],
  );
  const sold = lines.map((match) => soldOf(match, page));
  const kept = sold.filter((one, i): one is SoldLength => {
    if (one === null) return false;
    const again = sold.findIndex((other) => other?.length === one.length) < i;
    const line = lines[i];
    if (again && line !== undefined)
      page.tellAt(captured(line, 'length'), 'stock.length-twice', {
        length: { value: one.length, unit: 'mm' },
      });
    return !again;
  });
  const price = page.plain('price', 'price');
  const [first] = kept;
  const clear = kept.length === 1 && first?.price === null;
  if (price !== null && kept.length > 0 && !clear) {
    page.tellAt(page.bound('price'), 'stock.price', { price });
  }
  const have = page.all('have', 'have').map((bound) => lengthOf(bound, page));
  return {
    section,
    sold: clear && price !== null ? [{ length: first.length, price }] : kept,
    have: have.filter((one): one is Length => one !== null),
    unread:
      ['length', 'price', 'have'].some((name) => page.broken(name)) ||
      written.read.many.some(({ match }) => match === null) ||
      sold.includes(null) ||
      have.includes(null),
    origin: written.origin,
  };
}

const figureOf = (bound: Bound, page: Page, dimension: typeof LENGTH): number | null =>
  isValue(bound.arg) ? quantityOf(bound, dimension, page.reading) : null;

const lengthOf = (bound: Bound, page: Page): Length | null => figureOf(bound, page, LENGTH) as Length | null;

/** Null where the length cannot be read; a price that cannot be read is told, and is not known. */
function soldOf(match: Match, page: Page): SoldLength | null {
  const [long, cost] = [captured(match, 'length'), captured(match, 'price')];
  const length = long === null ? null : lengthOf(long, page);
  const price = cost === null ? null : figureOf(cost, page, PLAIN);
  return length === null ? null : { length, price };
}
