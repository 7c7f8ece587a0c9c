/** `tube.strength`: the steel's strength. Quotations of the rule disagree whether yield or tensile is meant. */
import { missing, reading } from '../readings';
import type { Decision, Limit, Reading, Rule } from '../rule';
import { noMaterial, oneOfEach } from './tube-material';

const factFor = (section: string): string =>
  `the strength of the steel of section ${section} is not written: material NAME { yield 360 MPa; tensile 490 MPa }`;

/** Tensile strength is never under yield: a yield strength under the limit says nothing while tensile is not written. */
function decide(limit: Limit, item: Reading): Decision {
  const { from, to } = limit.allowed;
  const { measured } = item;
  if (from === null || measured.value >= from - SLACK) return { kind: 'met' };
  if (item.word === 'yield') return { kind: 'unknown', fact: factFor(String(item.params['section'])) };
  return { kind: 'broken', measured, from, to, low: true };
}

const SLACK = 1e-6;

export const tubeStrength: Rule = {
  code: 'tube.strength',
  unit: 'MPa',
  slack: SLACK,
  read: (car) =>
    oneOfEach(car).map(({ tube, section }) => {
      const { yield: yielding, tensile } = section.material;
      const known = [yielding, tensile].filter((one): one is number => one !== null);
      if (known.length === 0) {
        const fact = section.material.name === null ? noMaterial(section) : factFor(section.name);
        return missing(tube.name, fact, { fact: 'section' });
      }
      const word = tensile === null ? 'yield' : 'tensile';
      const params = { tube: tube.name, section: section.name };
      return reading(tube.name, Math.max(...known), 'MPa', params, { fact: 'section', word });
    }),
  decide,
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
