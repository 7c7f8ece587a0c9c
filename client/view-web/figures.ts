/** What was measured and what is wrong, drawn where it is; and the region where a harness bar may be. */
import type { Vector3 } from 'three';
import type { WireFinding, WireModel } from '../../server/lsp/view-wire';
import type { Point3, ViewMark, ViewWindow } from '../../server/view/model';
import { worse, type Desk, type Layer } from './desk';
import type { Label } from './labels';
import { rgbOf, type Severity } from './looks';
import { drawMark, pointsOf, strokesOf, wordsAt } from './marks';
import type { Overlay, Pen } from './overlay';
import { basisOf } from './pose';

/** The beginning of a sentence, cut between words. */
export function shortened(text: string, most: number): string {
  if (text.length <= most) return text;
  const cut = text.slice(0, most);
  const space = cut.lastIndexOf(' ');
  return `${(space > most / 2 ? cut.slice(0, space) : cut).replace(/[\s,;:.]+$/, '')} …`;
}

/** From this close to square on, what lies in the side plane is seen as it is. */
const SQUARE_ON = 0.96;

const RANKS: Readonly<Record<Severity, number>> = { error: 60, warning: 50, information: 40, hint: 30 };
const isQuiet = (severity: Severity) => severity === 'information' || severity === 'hint';

export class Figures implements Layer {
  private wasFlat = false;

  constructor(
    private readonly desk: Desk,
    private readonly choose: (finding: number) => void,
  ) {}

  /** Marks that are drawn: which, and how. */
  private wanted(model: WireModel): { mark: ViewMark; index: number; chosen: boolean; bad: WireFinding | null }[] {
    const { desk } = this;
    const { layers } = desk.kept;
    const chosen = desk.finding === null ? null : (model.findings[desk.finding] ?? null);
    const lit = desk.lit();
    return model.marks.flatMap((mark, index) => {
      const isChosen = chosen?.marks.includes(index) ?? false;
      const bad = isChosen ? chosen : mark.finding === null ? null : (model.findings[mark.finding] ?? null);
      const problem = bad !== null && layers.problems;
      const asked = layers.figures && mark.of.some((id) => lit.has(id));
      const there = !pointsOf(mark).every((point) => desk.isCut(point));
      return there && (isChosen || problem || asked) ? [{ mark, index, chosen: isChosen, bad }] : [];
    });
  }

  draw(overlay: Overlay): void {
    const { desk } = this;
    const model = desk.shown;
    if (!model || desk.closeUp || desk.measuring) return;
    const window = this.window(model);
    if (window) this.drawWindow(overlay, window);
    const { palette } = desk;
    const wanted = this.wanted(model);
    const any = wanted.some(({ chosen }) => chosen);
    // The one that is looked at last, so that it stands before the others.
    for (const { mark, chosen, bad } of wanted.sort((a, b) => Number(a.chosen) - Number(b.chosen))) {
      const ink = bad ? rgbOf(palette, bad.severity) : palette.foreground;
      const quiet = bad !== null && isQuiet(bad.severity);
      drawMark(overlay, mark, { ink, width: chosen ? 3 : quiet ? 1.2 : 1.8, alpha: any && !chosen ? 0.45 : 1 });
    }
  }

  strokes(): readonly Vector3[] {
    const { desk } = this;
    const model = desk.shown;
    if (!model || desk.closeUp || desk.measuring) return [];
    const lit = desk.lit();
    return this.wanted(model).flatMap(({ mark, chosen, bad }) =>
      chosen || !bad || !isQuiet(bad.severity) || mark.of.some((id) => lit.has(id)) ? strokesOf(mark) : [],
    );
  }

  private get isFlat(): boolean {
    return Math.abs(basisOf(this.desk.stage.pose).toward.y) > SQUARE_ON;
  }

  /** The region, where it is seen as it is; from elsewhere only with its bar picked or the cursor in it. */
  private window({ window, things }: WireModel): ViewWindow | null {
    const { desk } = this;
    if (!window || !desk.kept.layers.window) return null;
    const lit = desk.lit();
    // Of a bar in two pieces each has a name of its own.
    const isBar = (name: string) => name === window.bar || name.startsWith(`${window.bar}.`);
    return this.isFlat || things.some(({ id, kind, name }) => kind === 'tube' && lit.has(id) && isBar(name))
      ? window
      : null;
  }

  turned(): boolean {
    const was = this.wasFlat;
    this.wasFlat = this.isFlat;
    return was !== this.wasFlat;
  }

  private drawWindow(overlay: Overlay, window: ViewWindow): void {
    const { palette } = this.desk;
    const flat = this.isFlat;
    const [right, left] = window.across;
    const at = (ring: readonly (readonly [number, number])[], y: number): Point3[] => ring.map(([x, z]) => [x, y, z]);
    for (const { level, outlines } of window.regions) {
      const firm = level === 'required';
      const pen: Pen = { ink: palette.green, width: firm ? 1 : 1.4, alpha: firm ? 0.45 : 0.9 };
      if (flat) {
        const rings = outlines.map((ring) => at(ring, (right + left) / 2));
        overlay.hatch(rings, pen, firm ? 9 : 5);
      } else {
        for (const ring of outlines) {
          const edge: Pen = { ink: palette.green, width: 1, dash: firm ? [6, 4] : [], alpha: 0.6 };
          overlay.line(at(ring, right), edge, true);
          overlay.line(at(ring, left), edge, true);
        }
      }
    }
  }

  labels(): readonly Label[] {
    const { desk } = this;
    const model = desk.shown;
    if (!model || desk.closeUp || desk.measuring) return [];
    const labels: Label[] = [];
    const told = new Set<WireFinding>();
    const wanted = this.wanted(model);
    const any = desk.finding !== null;
    const lit = desk.lit();
    for (const { mark, index, chosen, bad } of wanted) {
      if (bad && !chosen && any) continue;
      if (bad) told.add(bad);
      const number = bad ? model.findings.indexOf(bad) : -1;
      labels.push({
        key: `mark ${String(index)}`,
        at: wordsAt(mark),
        text: mark.says,
        sign: bad?.severity ?? null,
        kind: bad ? 'problem' : 'figure',
        chosen,
        rank: chosen ? 95 : bad ? RANKS[bad.severity] + 5 : 70,
        mute: !chosen && bad !== null && isQuiet(bad.severity) && !mark.of.concat(bad.of).some((id) => lit.has(id)),
        does: number < 0 ? null : () => this.choose(number),
      });
    }
    if (desk.kept.layers.problems || any) labels.push(...this.onParts(model, told));
    const window = this.window(model);
    if (window) labels.push(...this.windowLabels(window));
    return labels;
  }

  /** Findings that no mark shows: by their sign and first words, on the part that has them; many on one part are counted. */
  private onParts(model: WireModel, told: ReadonlySet<WireFinding>): Label[] {
    const { desk } = this;
    const byPart = new Map<string, number[]>();
    const lit = desk.lit();
    model.findings.forEach((finding, index) => {
      const chosen = index === desk.finding;
      if (told.has(finding) || (desk.finding !== null && !chosen)) return;
      const id = finding.of.find((one) => desk.things.middle(one) ?? desk.node(one));
      if (id !== undefined) byPart.set(id, [...(byPart.get(id) ?? []), index]);
    });
    return [...byPart].flatMap(([id, all]): Label[] => {
      const [first = 0] = all;
      const finding = model.findings[first];
      const at = desk.things.middle(id) ?? desk.node(id)?.at;
      if (!finding || !at || desk.isCut(at)) return [];
      const more = all.length > 1 ? ` (+${String(all.length - 1)})` : '';
      const chosen = first === desk.finding;
      const sign = all.reduce((worst, one) => worse(worst, model.findings[one]?.severity ?? worst), finding.severity);
      const isLit = finding.of.some((one) => lit.has(one));
      return [
        {
          key: `finding ${id}`,
          at,
          text: shortened(finding.text, chosen ? 90 : 34) + more,
          sign,
          kind: 'problem',
          chosen,
          rank: chosen ? 94 : RANKS[finding.severity],
          mute: !chosen && isQuiet(sign) && !isLit,
          does: () => this.choose(first),
        },
      ];
    });
  }

  private windowLabels(window: ViewWindow): Label[] {
    const [right, left] = window.across;
    return window.regions.flatMap(({ level, outlines }, index): Label[] => {
      const top = outlines.flat().reduce<readonly [number, number] | null>((best, point) => {
        return best === null || point[1] > best[1] ? point : best;
      }, null);
      if (!top) return [];
      return [
        {
          key: `window ${String(index)}`,
          at: [top[0], (right + left) / 2, top[1]],
          text: `${window.bar}: ${level === 'required' ? 'axis may be here' : 'recommended'}`,
          sign: null,
          kind: 'region',
          rank: 20,
          quiet: true,
          does: null,
        },
      ];
    });
  }
}
