/** What the program says about itself. */
import type { Command } from './arguments';

const USAGE = `cagewright: checks a roll bar or roll cage that is written as text.

  cagewright check FILE…      findings: file:line:column: severity code: message, then a count
      --format text|json|sarif|github          (text)
      --fail-on error|warning|information      exit status 1 from this severity on (error)
  cagewright describe FILE    everything computed: lengths, bends, copes, straps, seats, spaces, masses
      --format text|json                       (text)
  cagewright window FILE      where the harness bar may lie, in side view, by every chosen book
      --tube NAME                              of more than one tube that carries straps
      --format text|json|svg                   (text)
      --out X.svg                              writes the drawing as well
  cagewright report FILE --out X.html
                              a page for the scrutineer: every rule, its verdict, figures, drawings
      --force                                  writes over a file that the tool has not made
  cagewright draw FILE --view plan|side|front|free --out X.svg|X.png
                              the car from one side, with its measured angles; or as a picture of points
  cagewright draw FILE --out X.glb
                              the whole car for other programs, glTF 2.0
  cagewright packet FILE --out DIR
                              all shop papers: templates, bend sheets, cut list, drill and weld lists
      --force                                  writes over files that the tool has not made
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
  window: `cagewright window FILE [--tube NAME] [--format text|json|svg] [--out X.svg] [--force]

Where the axis of a harness bar may lie in side view, so that every chosen book is satisfied for every seat
whose straps lie on it, with each seat at every recline and slide of its ranges (recline 12 to 25 deg; slide
0 to 80): "x -170 to -210, z 768 to 802", and the whole outline in JSON and in the drawing. The bar is moved
as it is, without turning; straps stay where they are written (at y = ...), and so does all else of the car.

What a book allows or wants makes the window, whatever the state of its source; recommendations make the
preferred part of it. Waivers are not counted. A limit whose fact is missing is listed, not guessed. If there
is no place, the limits that exclude each other are named.

Exit status 0 if the bar lies inside, 1 if it lies outside, if there is no place, or if something is broken
wherever it lies, 2 if the tube has no window to be worked out. --out writes the drawing, and over an
existing file only if the tool has made it, or with --force.

An aid, not an approval: the current printed rulebook and the scrutineer decide.
`,
  report: `cagewright report FILE --out X.html [--force] [--date TEXT]

Writes a page of HTML that needs nothing beside it, to be printed or sent: the car, the books and their
editions, every rule (met, broken, waived with its reason, cannot be judged and which fact is missing), the
measured values, side, plan and front drawings. An existing file is written over only if the tool has made it,
or with --force; a .cage file never. --out - is standard output. --date is printed as it is given; without it
the line stays open. Exit status 1 if there are errors among the findings: the report is written all the same.

An aid, not an approval: the current printed rulebook and the scrutineer decide.
`,
  draw: `cagewright draw FILE --view plan|side|front|free --out X.svg|X.png [--force]
cagewright draw FILE --out X.glb [--force]

Draws the car from above (plan), from its left (side), from ahead (front), or from ahead, its left and above
(free: 40 degrees round, 25 up). The ending of X says what is written:

  .svg   true outlines with hidden lines in grey, numbers on the tubes with their key, overall dimensions and
         measured angles, scale in millimetres and inches; free has no dimensions: nothing is true to length in it
  .png   surfaces with their light and shade, 1600 points wide or high; no letters and no dimensions
  .glb   the whole car in binary glTF 2.0 (ISO/IEC 12113), in metres, y up: a node for each part with its name,
         its section, its length and its mass; --view is not used

--out - is the SVG on standard output. An existing file is written over only if the tool has made it, or with
--force. Tubes that cannot be drawn are named, on the drawing and on standard error. Exit status 1 if there are
errors among the findings, 2 if nothing could be drawn.
`,
  packet: `cagewright packet FILE --out DIR [--force]

Writes everything that is carried to the saw, the bender and the steel dealer into the folder DIR, which is made
where it is missing; index.html links all of it. Every paper carries the hash of the file. A part that an open
error touches, or that is cut to such a part, gets no template: index.html lists them with their errors.

Nothing is written unless all can be: an existing file is written over only if an earlier packet wrote it, or with
--force. Papers of an earlier packet that this one has no more are removed. A run that is broken off leaves no half
file, and no index.html unless all papers stand. Exit status 1 if there are errors among the findings.

An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.
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
