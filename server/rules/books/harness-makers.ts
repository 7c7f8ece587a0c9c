/**
 * What the makers of harnesses and head restraints ask for in their notes. They differ: each limit says whose notes it
 * stands in, and nothing is averaged. Guidance, so never more than a warning. In our own words.
 */
import type { Book } from '../rule';
import { inches } from '../sizes';
import type { Where } from './limit';
import { atLeast, atMost, between, own, seen } from './limit';

const notes = (whose: string, edition = ''): Where => ({ citation: whose, edition });

/** The notes of the harness that is in the car decide. */
const DIFFER = 'Makers differ: follow the notes of the harness that is in the car.';

export const HARNESS_MAKERS: Book = {
  name: 'harness-makers',
  title: 'installation notes of harness makers',
  asksCage: false,
  texts: [],
  limits: [
    seen(
      'strap.shoulder-angle',
      between(0, 30, 'deg'),
      notes("a distributor's checklist, and notes of two dealers", '2022'),
      {
        severity: 'warning',
        rows: ['HARN-A2', 'HARN-A3'],
      },
    ),
    seen('strap.shoulder-angle', between(0, 20, 'deg'), notes("a maker's diagrams"), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-A1'],
    }),
    seen('strap.shoulder-angle', between(0, 10, 'deg'), notes("another maker's figures in a magazine", '2007'), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-A4', 'HARN-A3'],
    }),
    seen('strap.shoulder-angle', atMost(40, 'deg'), notes("a third maker's support page"), {
      severity: 'warning',
      rows: ['HARN-A5'],
    }),
    seen('strap.shoulder-drop', between(0, inches(4), 'mm'), notes("a third maker's support page"), {
      severity: 'warning',
      rows: ['HARN-A5', 'HARN-A6'],
    }),
    seen('strap.shoulder-drop', between(0, inches(2), 'mm'), notes("another maker's figures in a magazine", '2007'), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-A4'],
    }),
    seen('strap.spine', atMost(10, 'deg'), notes("a seat maker's guidelines in a magazine", '2007'), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-A7'],
    }),
    seen('strap.shoulder-reach', atMost(inches(8), 'mm'), notes("a maker's checklist"), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-S3'],
    }),
    seen('strap.gap', atMost(inches(3), 'mm'), notes("a head restraint's manual"), {
      of: ['with yoke'],
      severity: 'warning',
      rows: ['HARN-S5'],
    }),
    seen('strap.spacing-formula', atMost(25, 'mm'), notes("a maker's checklist"), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-S1', 'DER-2'],
    }),
    seen('strap.crossing', atMost(450, 'mm'), notes("a maker's checklist"), {
      severity: 'warning',
      rows: ['HARN-S2'],
    }),
    seen('strap.crossing', atMost(500, 'mm'), notes("another maker's notes on wrapping"), {
      severity: 'warning',
      rows: ['HARN-S4'],
    }),
    // The slide and the webbing round the bar
    seen('strap.slider', atMost(25, 'mm'), notes("a distributor's checklist", '2022'), {
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-W1'],
    }),
    seen('strap.slider-seat', atLeast(0, 'mm'), notes("a distributor's checklist", '2022'), {
      severity: 'warning',
      rows: ['HARN-W1'],
    }),
    seen('strap.locked', atLeast(1, '1'), notes("a maker's sheet on wrapping"), {
      severity: 'warning',
      rows: ['HARN-W2'],
    }),
    seen('strap.tail', atLeast(100, 'mm'), notes("a maker's figure, and notes of two dealers"), {
      severity: 'warning',
      rows: ['HARN-W3'],
    }),
    seen('strap.adjuster', atLeast(250, 'mm'), notes("a maker's diagrams"), {
      of: ['without yoke'],
      severity: 'warning',
      rows: ['HARN-C3'],
    }),
    seen('strap.adjuster', atLeast(70, 'mm'), notes("a maker's diagrams"), {
      of: ['with yoke'],
      severity: 'warning',
      rows: ['HARN-C3'],
    }),
    // Lap and crotch straps
    seen('anchor.lap-angle', between(50, 80, 'deg'), notes("a distributor's checklist", '2022'), {
      severity: 'warning',
      why: 'Under 50 degrees the driver slides out under the strap.',
      rows: ['HARN-B1'],
    }),
    seen('anchor.lap-angle', between(60, 80, 'deg'), notes("a distributor's checklist", '2022'), {
      force: 'recommends',
      severity: 'information',
      why: DIFFER,
      rows: ['HARN-B1'],
    }),
    seen('anchor.lap-angle', between(45, 60, 'deg'), notes("another maker's sheet"), {
      force: 'recommends',
      severity: 'information',
      why: DIFFER,
      rows: ['HARN-B2'],
    }),
    seen('anchor.lap-angle', between(45, 55, 'deg'), notes('an article of the foundation that certifies belts'), {
      force: 'recommends',
      severity: 'information',
      why: DIFFER,
      rows: ['SFI-1'],
    }),
    seen('anchor.spacing', between(inches(15), inches(25), 'mm'), notes("a maker's sheet"), {
      of: ['lap'],
      severity: 'warning',
      rows: ['HARN-B2'],
    }),
    seen('anchor.spacing', between(inches(8), inches(12), 'mm'), notes("a maker's sheet"), {
      of: ['crotch'],
      severity: 'warning',
      rows: ['HARN-B2'],
    }),
    seen('anchor.bolt-size', atLeast(inches(7 / 16), 'mm'), notes("a belt maker's installation guide"), {
      severity: 'warning',
      rows: ['HARN-B3'],
    }),
    // SAE grade 5; a metric 8.8 is its equal.
    seen('bolt.grade', atLeast(800, 'MPa'), notes("a belt maker's installation guide"), {
      of: ['anchor'],
      severity: 'warning',
      rows: ['HARN-B3'],
    }),
    // SAE grade 8: 150 ksi.
    seen('bolt.grade', atLeast(1030, 'MPa'), notes("another maker's sheet"), {
      of: ['anchor'],
      force: 'recommends',
      severity: 'information',
      rows: ['HARN-B2'],
    }),
    seen('anchor.fixing', own('1'), notes("a maker's diagrams"), {
      of: ['lap'],
      accepts: ['bolt', 'eye'],
      severity: 'warning',
      rows: ['HARN-W5'],
    }),
    seen('anchor.adjuster', atLeast(40, 'mm'), notes("a maker's diagrams"), {
      severity: 'warning',
      why: 'Inboard beside the buckle is the other place.',
      rows: ['HARN-C2'],
    }),
    seen('anchor.adjuster', atLeast(inches(1.5), 'mm'), notes("a third maker's support page"), {
      severity: 'warning',
      rows: ['HARN-C1'],
    }),
  ],
};
