/** The shape of the vocabulary: what is declared of each statement and fact, what names may point at, the roles. */

/** What a name in a value may point at; `@any` is any thing of the car, `@host` a tube or a foot. */
export const NAME_SPACES = {
  node: 'a node',
  tube: 'a tube',
  foot: 'a foot',
  host: 'a tube or a foot',
  seat: 'a seat',
  strap: 'a strap',
  collar: 'a collar',
  any: 'a thing of the car',
  plane: 'a plane',
  material: 'a material',
  section: 'a section',
  die: 'a die',
  book: 'a rulebook',
  code: 'the code of a finding',
} as const satisfies Record<string, string>;
export type NameSpace = keyof typeof NAME_SPACES;

/** The part that a tube plays; `brace` where nothing is said. */
export const ROLES = {
  'main-rollbar': 'the hoop behind the front seats',
  'front-rollbar': 'the hoop along the windscreen pillars and over the top of the screen',
  'lateral-rollbar': 'a hoop along one side: windscreen pillar, roof edge and rear leg',
  'half-lateral': 'front pillar and roof edge of one side, landing on the main hoop',
  longitudinal: 'a tube along the car that joins front and main hoop',
  transverse: 'a tube across the car that joins the two sides',
  backstay: 'runs from the top of the main hoop down to the rear',
  diagonal: 'across the main hoop from an upper corner to the opposite foot',
  'backstay-diagonal': 'across the two backstays',
  'door-bar': 'in the door opening',
  'harness-bar': 'the shoulder straps are wrapped on it',
  'roof-bar': 'in the roof, between the hoops',
  'pillar-bar': 'stiffens the windscreen pillar at its bend',
  'dash-bar': 'across the car below the windscreen',
  'sill-bar': 'along the door sill',
  'front-extension': 'runs on to the front suspension',
  brace: 'any other tube',
} as const satisfies Record<string, string>;
export type Role = keyof typeof ROLES;

export interface FactEntry {
  readonly name: string;
  readonly pattern: string;
  readonly meaning: string;
  /** What holds without it, as a person would write it; null: nothing is assumed. */
  readonly default: string | null;
  /** A value as it may be written, where the pattern does not speak for itself. */
  readonly example: string | null;
  /** May be written several times in one statement. */
  readonly many: boolean;
}

export interface KindEntry {
  readonly name: string;
  /** Pattern of what follows the word; for `node` and `let` of what follows the `=`. */
  readonly head: string;
  /** `NAME =` stands between the word and the pattern. */
  readonly target: boolean;
  readonly meaning: string;
  /** A head as it may be written (without the statement's word), where the pattern does not speak for itself. */
  readonly example: string | null;
  /** Whether `{ … }` follows. `statements`: with statements in it. */
  readonly block: 'none' | 'facts' | 'statements';
  /** Why it cannot stand inside mirror; null: it can. */
  readonly notInMirror: string | null;
  /** Counts only in the file that is judged. */
  readonly judgedOnly: boolean;
  /** At most one a file. */
  readonly once: boolean;
  readonly facts: readonly FactEntry[];
  /** Facts that are needed: of each inner list, one. */
  readonly needs: readonly (readonly string[])[];
  /** Facts that are needed where a condition holds: another fact is written, or a word stands in the head. */
  readonly needsWhen: readonly { readonly fact: string; readonly withFact?: string; readonly withHeadWord?: string }[];
  /** Facts that say the same: at most one of each inner list. */
  readonly oneOf: readonly (readonly string[])[];
}
