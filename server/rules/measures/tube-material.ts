/** `tube.material`: how the tube is made, and of which steel, against the kinds that a book accepts. */
import type { Section, Tube } from '../../cage/cage';
import type { Car } from '../car';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import { processOf } from '../steel';

/** What is missing where a section has no material at all. */
export const noMaterial = ({ name }: Section): string =>
  `the material of section ${name} is not written: material cds { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless; carbon 0.2 %; manganese 1.2 %; others 0.4 % }`;

interface Used {
  readonly tube: Tube;
  readonly section: Section;
}

/** One tube of each section that is used, with the section: what is said of its steel is said once. */
export const oneOfEach = (car: Car): readonly Used[] => car.keep(usedSections);

const usedSections = (car: Car): readonly Used[] => {
  const seen = new Map<string, Used>();
  for (const tube of car.tubes()) {
    const { section } = tube;
    if (section !== null && !tube.existing && !seen.has(section.name)) seen.set(section.name, { tube, section });
  }
  return [...seen.values()];
};

export const tubeMaterial: Rule = {
  code: 'tube.material',
  unit: '1',
  slack: 0,
  read: (car) =>
    oneOfEach(car).map(({ tube, section }) => {
      const { name, kind } = section.material;
      const process = processOf(section.material);
      const at = { fact: 'section' };
      if (process !== null)
        return reading(tube.name, 1, '1', { tube: tube.name, word: process }, { ...at, word: process });
      const fact =
        name === null
          ? noMaterial(section)
          : kind === null
            ? `how the tube of section ${section.name} is made is not written: material NAME { kind cold-drawn-seamless }`
            : `'${kind}' is no kind of tube that the books tell apart: cold-drawn-seamless, drawn-over-mandrel, erw, chromoly`;
      return missing(tube.name, fact, at);
    }),
  mend: () => ({ says: 'use one of these', params: {} }),
  explanation: {
    what: 'A tube is not of a kind that the book accepts.',
    why: 'Tube with a welded seam can open along it in a hit or in the bender, and alloys want another way of welding.',
    measured: "The word of the material's `kind`. Nothing is measured.",
    mend: 'Use tube of a kind that the book names, and write it: `kind cold-drawn-seamless`.',
    stage: 'hoop',
    bad: 'rules fia-253\nmaterial seam { yield 360 MPa; kind erw }\nsection w38 { od 38; wall 2.5; material seam }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section w38; path a, b; first open }',
    good: 'rules fia-253\nmaterial drawn { yield 360 MPa; kind cold-drawn-seamless }\nsection s38 { od 38; wall 2.5; material drawn }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section s38; path a, b; first open }',
  },
};
