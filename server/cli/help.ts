/** What the program says about itself. */
import type { Command } from './arguments';

const USAGE = `cagewright: checks a roll bar or roll cage that is written as text.

  cagewright check FILE…      findings: file:line:column: severity code: message, then a count
      --format text|json|sarif|github          (text)
      --fail-on error|warning|information      exit status 1 from this severity on (error)
  cagewright describe FILE    everything computed: lengths, bends, copes, straps, seats, spaces, masses
      --format text|json                       (text)
  cagewright report FILE --out X.html
                              a page for the scrutineer: every rule, its verdict, figures, drawings
      --force                                  writes over a file that the tool has not made
  cagewright format FILE…     lays the text out; broken statements stay as they are
      --check                                  changes nothing; exit status 1 if anything would change
  cagewright explain CODE…    one finding: what, why, how it is measured, source, how to mend; or one rulebook
      --rules FILE                             also with the rulebooks that stand in FILE and what it uses
  cagewright lsp --stdio      the language server, for any editor
  cagewright help [COMMAND], cagewright version

  FILE is - for standard input; --name foo.cage says what it is called.
  --root DIR is the workspace: nothing outside it is read. Without it: the current folder if it
  holds FILE, else FILE's folder. Options may stand anywhere; after -- everything is a FILE.

Exit status: 0 nothing at or above the asked severity, 1 findings, 2 something could not be done.

An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.
`;

const TOPICS: Readonly<Record<Command, string>> = {
  check: `cagewright check FILE… [--format text|json|sarif|github] [--fail-on error|warning|information]

Judges each FILE with all that it uses, and prints the findings in the order of file, line, code and
subject. Waived findings stay in the list, marked, and outside the exit status.
`,
  describe: `cagewright describe FILE [--format text|json]

Prints everything that is computed. With errors in the file it holds what can still be computed, and
the exit status is 1.
`,
  report: `cagewright report FILE --out X.html [--force] [--date TEXT]

Writes a page of HTML that needs nothing beside it, to be printed or sent: the car, the books and their
editions, every rule (met, broken, waived with its reason, cannot be judged and which fact is missing), the
measured values, side, plan and front drawings. An existing file is written over only if the tool has made it,
or with --force; a .cage file never. --out - is standard output. --date is printed as it is given; without it
the line stays open. Exit status 1 if there are errors among the findings: the report is written all the same.

An aid, not an approval: the current printed rulebook and the scrutineer decide.
`,
  format: `cagewright format FILE… [--check]

Lays each FILE out and writes it back; - goes to standard output. Broken statements stay untouched.
With --check nothing is written, the files that would change are listed, and the exit status is 1.
`,
  explain: `cagewright explain CODE|BOOK… [--rules FILE]

Explains a finding by its code, such as strap.drop: what, why, how it is measured, its source, how to
mend it, and the limits of each rulebook. Or a rulebook by its name, such as fia-253: all its limits.
With --rules also the rulebooks that stand in FILE and in what it uses.
`,
  lsp: `cagewright lsp --stdio

Runs the language server over standard input and output.
`,
  help: USAGE,
  version: `cagewright version

Prints the version.
`,
};

export const helpFor = (topic: Command | null): string => (topic === null ? USAGE : TOPICS[topic]);
