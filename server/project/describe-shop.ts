/** What the shop has, as data for JSON: sticks by section, the saw, the torch. */
import type { Cage, Saw, Stock, Torch } from '../cage/cage';
import { byText } from '../geometry/tell';
import { angle, rounded } from './json-figures';

const stockJson = (stock: Stock) => ({
  section: stock.section,
  sold: stock.sold.map(({ length, price }) => ({ length: rounded(length), price: rounded(price) })),
  have: stock.have.map((length) => rounded(length)),
  unread: stock.unread,
});

const sawJson = (saw: Saw | null) =>
  saw === null ? null : { vice: rounded(saw.vice), kerf: rounded(saw.kerf), reach: angle(saw.reach) };

const torchJson = (torch: Torch | null) =>
  torch === null
    ? null
    : {
        nozzle: rounded(torch.nozzle),
        reach: rounded(torch.reach),
        stickOut: rounded(torch.stickOut),
        lean: angle(torch.lean),
      };

/** Null where nothing is told; a list in the order of the sections' names. */
export const shopJson = ({ stocks, saw, torch }: Cage) => ({
  stocks: [...stocks.values()].sort((a, b) => byText(a.section, b.section)).map(stockJson),
  saw: sawJson(saw),
  torch: torchJson(torch),
});
