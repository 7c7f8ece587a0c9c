/** What the dealer sells of each section and what lies in the rack, and the saw: what papers for the saw are made from. */
import { captured, type Match } from '../../grammar/shape-check';
import type { Length } from '../../grammar/units';
import { LENGTH, PLAIN } from '../../grammar/units';
import type { Cage, Saw, SoldLength, Stock } from './cage';
import type { Bound } from './facts';
import { isValue, quantityOf } from './facts';
import type { Written } from './names';
import type { Page } from './page';

/** Kinds that are read here. */
export const STORE_KINDS: ReadonlySet<string> = new Set(['stock', 'saw']);

/** Reads what stands in all files; of two of one section, and of two saws, the first counts. `written`: of those kinds. */
export function readStore(
  written: readonly Written[],
  pageOf: (written: Written) => Page,
): Pick<Cage, 'stocks' | 'saw'> {
  const stocks = new Map<string, Stock>();
  let saw: Saw | null = null;
  for (const one of written) {
    if (one.inMirror) continue;
    const page = pageOf(one);
    if (one.kind === 'saw') {
      const reach = page.angle('reach', 'reach', 90);
      saw ??= { vice: page.length('vice'), kerf: page.length('kerf'), reach, origin: one.origin };
      continue;
    }
    const section = page.name('', 'section');
    const stock = stockOf(one, page, section ?? '');
    if (section === null) continue;
    if (stocks.has(section)) page.tellAt(page.bound('', 'section'), 'stock.twice', { section });
    else stocks.set(section, stock);
  }
  return { stocks, saw };
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
