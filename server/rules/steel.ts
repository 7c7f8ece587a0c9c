/** What the word of a material's `kind` says of the tube, in the books' own terms. */
import type { Material } from '../cage/cage';

/** How a tube is made, as the books tell it apart. */
export type Process = 'cold-drawn seamless' | 'drawn over mandrel' | 'resistance welded' | '4130 alloy';

/** Words that fabricators write, without hyphens and letters' case. */
const WORDS: Readonly<Record<string, Process>> = {
  colddrawnseamless: 'cold-drawn seamless',
  seamless: 'cold-drawn seamless',
  cds: 'cold-drawn seamless',
  drawnovermandrel: 'drawn over mandrel',
  dom: 'drawn over mandrel',
  erw: 'resistance welded',
  electricresistancewelded: 'resistance welded',
  resistancewelded: 'resistance welded',
  welded: 'resistance welded',
  chromoly: '4130 alloy',
  chromemoly: '4130 alloy',
  // A word begins with a letter: `kind alloy-4130`.
  alloy4130: '4130 alloy',
  aisi4130: '4130 alloy',
  crmo: '4130 alloy',
};

/** Null where no kind is written, or one that the books do not know. */
export const processOf = (material: Material): Process | null => {
  const word = material.kind?.toLowerCase().replace(/[-_ ]/g, '') ?? '';
  return Object.hasOwn(WORDS, word) ? (WORDS[word] ?? null) : null;
};

/** Mild steel or 4130; null: not known. A section without a material is of mild steel. */
export function steelOf(material: Material): 'mild' | '4130' | null {
  if (material.name === null) return 'mild';
  const process = processOf(material);
  if (process === null) return null;
  return process === '4130 alloy' ? '4130' : 'mild';
}
