/** Why a row of the fact sheets is no rule of a book. In our own words. */
import type { Code } from '../../../grammar/codes';

export type ReasonKind = 'needs' | 'built' | 'not a limit' | 'drawing not seen' | 'no book' | 'open';

interface ReasonEntry {
  /**
   * `needs`: the language has no such fact yet; `built`: the tool tells it whatever the book, by the code in `says`;
   * `open`: could be a rule with the facts that there are.
   */
  readonly kind: ReasonKind;
  readonly says: string;
  /** Ids, with blanks between. */
  readonly rows: string;
}

const ENTRIES: readonly ReasonEntry[] = [
  {
    kind: 'not a limit',
    says: 'historic cars go by the rules of their own appendix, which are not in this book',
    rows: 'HOM-hist',
  },
  {
    kind: 'not a limit',
    says: 'as near as possible: no figure is named',
    rows: '253-6.2-Cpillar',
  },
  { kind: 'not a limit', says: "no figure: easy entry and exit is the scrutineer's eye", rows: '253-8.1-access' },
  { kind: 'not a limit', says: 'a definition that asks for nothing', rows: '253-8.2.11 253-8.2.12' },
  {
    kind: 'not a limit',
    says: 'a recommendation or permission: nothing can be broken',
    rows: '253-8.3.2.1.2-pillar 253-8.3.2.6-52 253-6.2-series 253-8.3.2.6-weldok 253-8.3.3-elong',
  },
  { kind: 'drawing not seen', says: 'the drawing that names the centre strut was not seen', rows: '253-8.3.2.2.5-ctr' },
  {
    kind: 'drawing not seen',
    says: "what the drawing's dimensions mean was not seen",
    rows: '253-8.3.2.5-253-48 253-8.3.2.5-253-49A 253-8.3.2.5-253-49B 253-8.3.2.5-253-49C',
  },
  { kind: 'not a limit', says: 'the language has round tube only', rows: '253-8.3.3-round' },
  {
    kind: 'not a limit',
    says: 'measured on the bent tube, not in the drawing',
    rows: '253-8.3.3-oval 253-8.3.3-smooth SCCA-W2 CHAMP-4 BEND-10 FIT-7',
  },
  {
    kind: 'not a limit',
    says: 'this article names no clearance to a helmet; the 150 mm of a national rule are the reach in padding.missing',
    rows: '253-helmet',
  },
  {
    kind: 'not a limit',
    says: 'a strap leads to a tube in this language: it cannot be anchored to a seat',
    rows: '253-6.2-seat',
  },
  { kind: 'drawing not seen', says: 'the drawings were not seen', rows: '253-6.2-drawings 253-6.2-lapangle' },
  {
    kind: 'not a limit',
    says: 'the harness as a product, not how it is fitted',
    rows: '253-6.1-std 8853-98-strap 253-6.1-cutters SFI-5 GCR-HN4 NHRA-HN1',
  },
  {
    kind: 'not a limit',
    says: 'load tests of certified cages: strength is not judged here',
    rows: 'HOM-w HOM-main HOM-main-stamp HOM-front HOM-front-stamp HOM-time HOM-calc HOM-TL35',
  },
  { kind: 'not a limit', says: 'no value is known', rows: 'HOM-side' },
  {
    kind: 'not a limit',
    says: 'another rule for another kind of car, which must not be mixed with this one',
    rows: 'HOM-open',
  },
  {
    kind: 'not a limit',
    says: 'superseded tables on another basis of mass, for cars with an old logbook',
    rows: 'SCCA-T4 SCCA-T5',
  },
  {
    kind: 'not a limit',
    says: 'plates join tubes only in a judgement of load paths, which no book here asks for',
    rows: 'SCCA-S2',
  },
  {
    kind: 'no book',
    says: 'no chosen book is that of this club',
    rows: 'RALLY-G1 SCTA-1 DRIFT-1 RALLY-P1 RALLY-P2 RALLY-P3 RALLY-M1 RALLY-P4 ORR-H1 ORR-G1 ORR-4P CHAMP-1 CHAMP-2 CHAMP-3 LEM-1 LEM-2 DIRT-1 NASC-1 SCORE-1 FSAE-B1 FSAE-I1 FSAE-H1 FSAE-HB1 FSAE-HB2 FSAE-HN1 FSAE-HN2 FSAE-HN3 BAJA-1 BAJA-2 BAJA-3 PRO-HN1 PCA-HN1 NZ-HN1',
  },
  { kind: 'not a limit', says: 'a note of permission for one category of cars', rows: 'SOLO-HB1' },
  {
    kind: 'not a limit',
    says: 'allows anchors above the shoulder, which every maker in the book forbids: books are not merged, and no book here is its own',
    rows: 'SFI-2',
  },
  {
    kind: 'not a limit',
    says: 'the same range stands in the book of the makers as a magazine gave it; this one is from memory',
    rows: 'SFI-4',
  },
  { kind: 'not a limit', says: 'superseded by the newer text of the same book', rows: 'GCR-HN2' },
  {
    kind: 'not a limit',
    says: 'webbing to lace with, before it is pulled through: the free end that stays is strap.tail',
    rows: 'HARN-W4',
  },
  { kind: 'drawing not seen', says: 'the figure that gives each member its letter was not seen', rows: 'NHRA-T3' },
  { kind: 'built', says: 'strap.can-slide', rows: 'HARN-L1 HARN-L2' },
  { kind: 'built', says: 'strap.slot-edge', rows: 'HARN-C4' },
  { kind: 'not a limit', says: 'straps that join behind the neck cannot be written', rows: 'HARN-B5' },
  { kind: 'built', says: 'space.unvented', rows: 'VENT-3' },
  { kind: 'not a limit', says: 'what is done with the bore afterwards: oil, or a plug', rows: 'VENT-4' },
  {
    kind: 'not a limit',
    says: "other guides' figures for the same holes, which must not be mixed with those of galvanized.hole",
    rows: 'VENT-8 VENT-9',
  },
  {
    kind: 'not a limit',
    says: 'play at the bench, on which the sources disagree; the groove of a cut is joint.gap',
    rows: 'FIT-3 FIT-4',
  },
  { kind: 'not a limit', says: 'repairs and splices cannot be written', rows: 'FIT-5 FIT-6 FIT-8' },
  { kind: 'not a limit', says: 'a way to cut by hand: the templates take its place', rows: 'FIT-9 FIT-10' },
  { kind: 'not a limit', says: 'a code for plate: a cage tube passes it in every row that it has', rows: 'FIT-14' },
  { kind: 'built', says: 'bend.between', rows: 'BEND-3 BEND-4 BEND-5' },
  { kind: 'not a limit', says: 'tolerances of the bender, not of the drawing', rows: 'BEND-6 BEND-8' },
  { kind: 'not a limit', says: 'a range that shops use; the limit of three diameters is bend.radius', rows: 'BEND-12' },
  {
    kind: 'not a limit',
    says: "arithmetic: the tool's own figures, held in the tests of geometry",
    rows: 'BEND-13 TUBE-9 DER-3 DER-7',
  },
  {
    kind: 'not a limit',
    says: 'tolerances of bought tube: sizes are judged as they are written',
    rows: 'TUBE-1 TUBE-2 TUBE-3 TUBE-6 TUBE-8',
  },
  {
    kind: 'not a limit',
    says: 'arithmetic of the sheet: a test holds the rules to it, no rule of its own',
    rows: 'DER-1 DER-4 DER-5 DER-6 DER-8',
  },
];

export interface Reason {
  readonly kind: ReasonKind;
  readonly says: string;
}

/** By the id of the row. */
export const REASONS: ReadonlyMap<string, Reason> = new Map(
  ENTRIES.flatMap(({ kind, says, rows }) => rows.split(' ').map((row) => [row, { kind, says }] as const)),
);

/** The codes that tell a row whatever the book. A test holds them to the table of codes. */
export const BUILT: readonly Code[] = ENTRIES.filter(({ kind }) => kind === 'built').map(({ says }) => says as Code);
