/** What the table of codes holds of each. */
import type { Severity } from './finding';

export interface CodeEntry {
  readonly severity: Severity;
  /** Rule and practice codes only: what cannot be read or built cannot be waived. */
  readonly waivable: boolean;
  readonly says: string;
}
