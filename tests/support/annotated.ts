/**
 * Cage files that carry the findings they must have, in comments that the tool reads past:
 *
 *     section s { od 30 mmm }
 *     #!                ^^^ unit.unknown error
 *
 * The carets stand under the exact span, on the next lines. Where they cannot (the first two columns, an empty span, a
 * span over several lines) columns are written: `#! 0-4 kind.unknown error`, `#! 8-+1:1 …` (to column 1 of the next line).
 * `waived` after the severity: waived. `#! file seats.cage`: what follows is that file.
 */
import type { PlacedFinding } from '../../grammar/finding';

export interface Wanted {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  readonly code: string;
  readonly severity: string;
  readonly waived: boolean;
}

export interface Annotated {
  readonly text: string;
  readonly files: Readonly<Record<string, string>>;
  readonly wanted: readonly Wanted[];
}

const CARETS = /^#!(\s*)(\^+) (\S+) (error|warning|information)( waived)?$/;
const COLUMNS = /^#! (\d+)-(?:\+(\d+):)?(\d+) (\S+) (error|warning|information)( waived)?$/;

/** Reads a fixture. Throws on an annotation that it does not understand: a test must not pass by a slip of the pen. */
export function readAnnotated(source: string, name = 'example.cage'): Annotated {
  const files: Record<string, string> = {};
  const wanted: Wanted[] = [];
  let file = name;
  let lines: string[] = [];
  let pending: {
    line: number;
    from: number;
    to: number;
    down: number;
    rest: Omit<Wanted, 'file' | 'start' | 'end'>;
  }[] = [];
  const close = (): void => {
    const starts = lines.map((_, i) => lines.slice(0, i).reduce((sum, line) => sum + line.length + 1, 0));
    for (const { line, from, to, down, rest } of pending) {
      // A span over several lines counts lines of the fixture, annotations not counted.
      let target = line;
      for (let left = down; left > 0;) {
        target += 1;
        if (!(lines[target] ?? '').startsWith('#!')) left -= 1;
      }
      wanted.push({ file, start: (starts[line] ?? 0) + from, end: (starts[target] ?? 0) + to, ...rest });
    }
    files[file] = lines.join('\n');
    lines = [];
    pending = [];
  };
  let last = -1;
  for (const line of source.split('\n')) {
    const other = /^#! file (\S+)$/.exec(line);
    if (other?.[1] !== undefined) {
      close();
      file = other[1];
      last = -1;
      continue;
    }
    lines.push(line);
    if (!line.startsWith('#!')) {
      last = lines.length - 1;
      continue;
    }
    const carets = CARETS.exec(line);
    const columns = COLUMNS.exec(line);
    if (carets !== null) {
      const [, blanks = '', marks = '', code = '', severity = '', waived] = carets;
      const from = 2 + blanks.length;
      pending.push({
        line: last,
        from,
        to: from + marks.length,
        down: 0,
        rest: { code, severity, waived: waived !== undefined },
      });
    } else if (columns !== null) {
      const [, from = '0', down = '0', to = '0', code = '', severity = '', waived] = columns;
      pending.push({
        line: last,
        from: Number(from),
        to: Number(to),
        down: Number(down),
        rest: { code, severity, waived: waived !== undefined },
      });
    } else throw new Error(`Not understood: ${line}`);
  }
  close();
  const { [name]: text = '', ...rest } = files;
  return { text, files: rest, wanted };
}

const key = (w: Wanted): string =>
  `${w.file}:${String(w.start)}-${String(w.end)} ${w.code} ${w.severity}${w.waived ? ' waived' : ''}`;

/** What is wanted, and what was found, as sorted lines that can be compared one to one. */
export function compared(
  wanted: readonly Wanted[],
  found: readonly PlacedFinding[],
): { readonly wanted: readonly string[]; readonly found: readonly string[] } {
  return {
    wanted: wanted.map(key).sort(),
    found: found
      .map((f) =>
        key({
          file: f.place.file,
          start: f.place.span.start,
          end: f.place.span.end,
          code: f.code,
          severity: f.severity,
          waived: f.waived,
        }),
      )
      .sort(),
  };
}
