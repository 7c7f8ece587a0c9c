/** The papers that are made from an analysis, for whoever writes them to a file. */
import type { PlacedFinding } from '../../grammar/finding';
import type { Judged, SourceFile } from '../papers/judged';
import { svgFile } from '../drawing/svg';
import { undrawnTubes, undrawnWords } from '../drawing/undrawn';
import type { DrawnView } from '../drawing/view';
import { isOurs, MARK } from '../papers/page';
import { viewWithKey } from '../papers/pictures';
import { scrutineerReport } from '../papers/report';
import { assess } from '../rules/assess';
import { Car } from '../rules/car';
import { booksOf } from '../rules/judge';
import type { Book } from '../rules/rule';
import { isMissing } from '../rules/rule';
import type { Analysis } from './project';
import { weigh } from './waivers';
import type { Finding } from '../../grammar/finding';
import type { Assessment } from '../rules/assess';

/** What the waivers are held against: the finding of a judgement, as far as they look at it. */
function findingOf({ rule, book, item, verdict }: Assessment): Finding {
  const { subject, at } = item;
  const limit = verdict.kind === 'broken' ? verdict.limit : null;
  return {
    code: verdict.kind === 'unknown' ? 'rule.cannot-judge' : rule.code,
    severity: limit?.severity ?? 'information',
    subject,
    at,
    params: isMissing(item) ? {} : item.params,
    ...(verdict.kind !== 'broken'
      ? {}
      : {
          measured: verdict.decision.measured,
          allowed: { from: verdict.decision.from, to: verdict.decision.to, unit: verdict.decision.measured.unit },
        }),
    rule: {
      book: book.name,
      citation: limit?.citation ?? '',
      edition: limit?.edition ?? '',
      source: limit?.source ?? 'from memory',
    },
    notes: [],
    fixes: [],
  };
}

export interface CarJudged {
  readonly car: Car;
  readonly books: readonly Book[];
  /** Rule by rule, as the books ask; what is met and what cannot be judged as well as what is broken. */
  readonly judged: readonly Judged[];
}

/** All judgements of the chosen books, each with the waiver that covers it. */
export function assessmentsOf({ cage, shape }: Pick<Analysis, 'cage' | 'shape'>): CarJudged {
  const car = new Car(cage, shape);
  const books = booksOf(cage);
  const assessments = assess(car, books);
  const failing = assessments.filter(({ verdict }) => verdict.kind !== 'met');
  const { weighed } = weigh(cage, failing.map(findingOf), () => ({ kind: 'thing', thing: '' }));
  const waivers = new Map(failing.map((assessment, i) => [assessment, weighed[i]?.waiver ?? null]));
  return {
    car,
    books,
    judged: assessments.map((assessment) => ({ assessment, waiver: waivers.get(assessment) ?? null })),
  };
}

/** True for the text of a paper that the tool has made: it may be written again. */
export const isOwnFile = (text: string): boolean => isOurs(text);

/** What only the edge knows. */
export interface ReportEdge {
  /** SHA-256 of a file's text as UTF-8, in hexadecimal; null: not taken. */
  readonly hashOf: (text: string) => string | null;
  /** `car.cage:12`. */
  readonly placeOf: (finding: PlacedFinding) => string;
  /** `Cagewright 1.2.0`. */
  readonly maker: string;
  readonly date: string | null;
}

/** What a drawing of the car lacks, as a sentence; null: every tube is drawn. */
export const lackingWords = ({ shape }: Pick<Analysis, 'shape'>): string | null => undrawnWords(shape);

/** True where no tube can be drawn. */
export const isBlank = ({ cage, shape }: Pick<Analysis, 'cage' | 'shape'>): boolean =>
  undrawnTubes(shape).length === [...cage.things.values()].filter(({ kind }) => kind === 'tube').length;

/** Errors that are not waived. */
const openErrors = ({ findings }: Pick<Analysis, 'findings'>): number =>
  findings.filter(({ waived, severity }) => !waived && severity === 'error').length;

/** One view of the whole car with its measured figures, an SVG file. */
export const viewSvg = (analysis: Pick<Analysis, 'cage' | 'shape' | 'findings'>, view: DrawnView): string =>
  svgFile(viewWithKey(new Car(analysis.cage, analysis.shape), view, openErrors(analysis)), MARK);

/** The report for the scrutineer, a page of HTML. */
export function reportHtml(analysis: Analysis, edge: ReportEdge): string {
  const files = [...analysis.trees].map(([name, { text }]): SourceFile => ({ name, sha256: edge.hashOf(text) }));
  return scrutineerReport({
    ...assessmentsOf(analysis),
    findings: analysis.findings,
    waivers: analysis.waivers,
    files,
    placeOf: edge.placeOf,
    maker: edge.maker,
    date: edge.date,
  });
}
