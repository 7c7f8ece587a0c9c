/** What is bought: the pieces of a section laid out on sticks, offcuts first. */
import type { Cage } from '../../cage/cage';
import { layOut } from '../stock/lay-out';
import type { Layout, Supply } from '../stock/stock';
import type { SectionPieces } from './pieces';

/** mm. Taken where no stock is told: a common length of tube at the dealer's (common practice, no source). */
export const USUAL_LENGTH = 6000;
/** mm. Taken where no saw is told: an abrasive blade's, the widest in a small shop (common practice, no source). */
export const USUAL_KERF = 3;

export interface Buying {
  readonly of: SectionPieces;
  readonly layout: Layout;
  readonly supply: Supply;
  /** What the tool has chosen, and what it could not read: sentences. */
  readonly chosen: readonly string[];
}

/** `say`: a length in the units of the file. */
export function buyingOf(of: SectionPieces, cage: Cage, say: (length: number) => string): Buying {
  const stock = of.section === null ? undefined : cage.stocks.get(of.section);
  const name = of.section ?? 'NAME';
  const kerf = cage.saw?.kerf ?? null;
  const told = stock !== undefined && stock.sold.length > 0;
  const pieces = of.pieces.flatMap(({ number, stick }) =>
    stick === null ? [] : [{ name: number.label, length: stick }],
  );
  const supply: Supply = {
    sold: told ? stock.sold : [{ length: USUAL_LENGTH, price: null }],
    have: stock?.have ?? [],
    kerf: kerf ?? USUAL_KERF,
  };
  const layout = layOut(pieces, supply);
  const chosen = [
    // Where the rack has it all, it does not matter what is sold.
    ...(told || layout.bought + layout.tooLong.length === 0
      ? []
      : [
          `Which lengths are sold is not told: ${say(USUAL_LENGTH)} is the tool's own choice. Write it: stock ${name} { length ${String(USUAL_LENGTH)} mm }.`,
        ]),
    ...(stock?.unread === true ? ['A line of this stock cannot be read: it is left out here, mend it first.'] : []),
    ...(told && stock.sold.some(({ price }) => price === null) && stock.sold.some(({ price }) => price !== null)
      ? ['Not every length has a price: the fewest sticks are looked for, not the cheapest.']
      : []),
  ];
  return { of, supply, chosen, layout };
}

/** Said once for all sections, where the file tells of no saw. */
export const kerfWords = (say: (length: number) => string): string =>
  `What the saw takes is not told: ${say(USUAL_KERF)} at each cut is the tool's own choice. Write it: saw { kerf ${String(USUAL_KERF)} mm }.`;

export const money = (value: number): string => String(Math.round(value * 100) / 100);

/** How good the layout is, in words. */
export function proofOf({ layout }: Buying): string {
  const { cost, bought, bound, proven } = layout;
  if (bought === 0) return 'Nothing has to be bought';
  if (proven) return cost === null ? 'Proven: fewer sticks are not possible' : 'Proven: it cannot be had cheaper';
  const gap = (cost ?? bought) - bound;
  const share = `a gap of ${(Math.ceil((1000 * gap) / bound) / 10).toFixed(1)} %`;
  return cost === null
    ? `Not proven, the search ended with ${share}: no layout needs fewer than ${String(bound)} sticks, so at most ${String(gap)} could be saved`
    : `Not proven, the search ended with ${share}: no layout costs less than ${money(bound)}, so at most ${money(gap)} could be saved`;
}

/** `4 x 6000 mm`, longest first; with their prices. */
export function billOf({
  layout,
}: Buying): readonly { readonly length: number; readonly price: number | null; readonly count: number }[] {
  const counts = new Map<number, { price: number | null; count: number }>();
  for (const { bought, length, price } of layout.sticks) {
    if (!bought) continue;
    const before = counts.get(length);
    counts.set(length, { price, count: (before?.count ?? 0) + 1 });
  }
  return [...counts].sort(([a], [b]) => b - a).map(([length, of]) => ({ length, ...of }));
}

/** What the bought sticks cost, also where a length has no price of which none is bought; null: not known. */
export function costOf({ layout }: Buying): number | null {
  const prices = layout.sticks.flatMap(({ bought, price }) => (bought ? [price] : []));
  return prices.reduce<number | null>((sum, price) => (sum === null || price === null ? null : sum + price), 0);
}

export function costWords(buying: Buying): string {
  const cost = costOf(buying);
  return cost === null ? 'not told' : money(cost);
}
