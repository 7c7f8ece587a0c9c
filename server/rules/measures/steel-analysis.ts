/** `steel.analysis`: what the steel holds of carbon, manganese and other elements, in per cent of its mass. */
import type { Car } from '../car';
import { missing, missingOfCar, reading } from '../readings';
import type { Item } from '../rule';
import { noMaterial, oneOfEach } from './tube-material';
import type { Rule } from '../rule';

/** One tube of each material: what is said of its analysis is said once. */
const oneOfEachMaterial = (car: Car): ReturnType<typeof oneOfEach> => {
  const seen = new Set<string | null>();
  return oneOfEach(car).filter(({ section: { material } }) => {
    if (material.name === null) return true;
    if (seen.has(material.name)) return false;
    seen.add(material.name);
    return true;
  });
};

function itemsOf({ tube, section }: ReturnType<typeof oneOfEach>[number]): readonly Item[] {
  const { material } = section;
  const parts = [
    ['carbon', material.carbon],
    ['manganese', material.manganese],
    ['any other element', material.others],
  ] as const;
  const unwritten = parts.filter(([, share]) => share === null);
  const lacks =
    material.name === null
      ? noMaterial(section)
      : `the analysis of its steel is not written: material ${material.name} { carbon 0.2 %; manganese 1.2 %; others 0.4 % }`;
  return parts.flatMap(([group, share]): readonly Item[] => {
    if (share !== null)
      return [reading(tube.name, share * 100, '1', { tube: tube.name, element: group }, { fact: 'section', group })];
    return unwritten[0]?.[0] === group ? [missing(tube.name, lacks, { fact: 'section', group })] : [];
  });
}

const analysed = (parts: string): string =>
  `material cds { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless; ${parts} }\nsection s38 { od 38; wall 2.5; material cds }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section s38; path a, b; first open }`;

export const steelAnalysis: Rule = {
  code: 'steel.analysis',
  unit: '1',
  slack: 1e-9,
  read: (car) => {
    const all = oneOfEachMaterial(car);
    const named = all.filter(({ section }) => section.material.name !== null);
    const noneTold = named.every(({ section: { material } }) =>
      [material.carbon, material.manganese, material.others].every((share) => share === null),
    );
    if (named.length === 0 || named.length < all.length || !noneTold) return all.flatMap(itemsOf);
    return missingOfCar(
      car,
      `the analysis of the steel is not written: material ${named[0]?.section.material.name ?? 'NAME'} { carbon 0.2 %; manganese 1.2 %; others 0.4 % }`,
      { group: 'carbon' },
    );
  },
  mend: () => ({ says: 'use unalloyed steel', params: {} }),
  explanation: {
    what: 'The steel holds more of an element than the book allows.',
    why: 'Carbon and alloying make it hard beside the weld: it cracks there.',
    measured:
      'The facts `carbon`, `manganese` and `others` (the largest of any other element) of the material, in per cent of its mass.',
    mend: 'Use unalloyed steel, and write its analysis from the certificate.',
    stage: 'hoop',
    bad: `rules fia-253\n${analysed('carbon 0.35 %; manganese 1.2 %; others 0.4 %')}`,
    good: `rules fia-253\n${analysed('carbon 0.2 %; manganese 1.2 %; others 0.4 %')}`,
  },
};
