/**
 * What the makers of harnesses and head restraints ask for in their notes. They differ: each limit says whose notes it
 * stands in, and nothing is averaged. Guidance, so never more than a warning. In our own words.
 */
import type { Book } from '../rule';
import { inches } from '../sizes';
import type { Where } from './limit';
import { atLeast, atMost, between, seen } from './limit';

const notes = (whose: string, edition = ''): Where => ({ citation: whose, edition });

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
    seen('strap.shoulder-drop', between(0, inches(4), 'mm'), notes("a third maker's support page"), {
      severity: 'warning',
      rows: ['HARN-A5', 'HARN-A6'],
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
      rows: ['HARN-S2', 'HARN-S4'],
    }),
    seen('seat.gap', atLeast(38, 'mm'), notes("a maker's support page"), {
      force: 'recommends',
      severity: 'warning',
      why: 'Adjuster or buckle must not ride on the seat.',
      rows: ['HARN-C1'],
    }),
  ],
};
