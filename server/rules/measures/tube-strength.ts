/** `tube.strength`: the steel's strength. Quotations of the rule disagree whether yield or tensile is meant. */
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import { oneOfEach } from './tube-material';

/** Asked for by the book that is told apart here, MPa: a yield strength under it says nothing while tensile is unknown. */
const ASKED = 350;

export const tubeStrength: Rule = {
  code: 'tube.strength',
  unit: 'MPa',
  slack: 1e-6,
  read: (car) =>
    oneOfEach(car).map(({ tube, section }) => {
      const { yield: yielding, tensile } = section.material;
      const known = [yielding, tensile].filter((one): one is number => one !== null);
      const best = known.length === 0 ? null : Math.max(...known);
      // Tensile strength is never under yield: where it alone is written and too low, so is the other.
      if (best === null || (tensile === null && best < ASKED))
        return missing(
          tube.name,
          `the strength of the steel of section ${section.name} is not written: material NAME { yield 360 MPa; tensile 490 MPa }`,
          { fact: 'section' },
        );
      return reading(tube.name, best, 'MPa', { tube: tube.name }, { fact: 'section' });
    }),
  mend: () => ({ says: 'use a stronger steel', params: {} }),
  explanation: {
    what: 'The steel is weaker than the book asks.',
    why: 'The sizes of the tubes are meant for steel of that strength.',
    measured:
      'Yield or tensile strength of the material, whichever is higher: quotations of the rule disagree which of the two is meant, so only steel that has neither is told.',
    mend: 'Use tube with a certificate of its strength, and write it down.',
    stage: 'hoop',
    bad: 'rules fia-253\nmaterial soft { yield 235 MPa; tensile 340 MPa; kind cold-drawn-seamless }\nsection s38 { od 38; wall 2.5; material soft }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section s38; path a, b; first open }',
    good: 'rules fia-253\nmaterial hard { yield 345 MPa; tensile 480 MPa; kind cold-drawn-seamless }\nsection s38 { od 38; wall 2.5; material hard }\nnode a = (-400, 0, 0)\nnode b = on hoop nearest (0, 0, 1000)\ntube prop as transverse { section s38; path a, b; first open }',
  },
};
