/** One end of a tube backed off from its host along its leg: the cut edge and its clock marks, as they will be on the tube. */
import { Vector3 } from 'three';
import type { Point3, ViewEnd } from '../../server/view/model';
import { floats } from './decode';
import type { Desk, Layer } from './desk';
import { button, el, setText } from './dom';
import type { Label } from './labels';
import type { Overlay } from './overlay';
import { basisOf } from './pose';

/** mm: how far an end is backed off at first, and at most. */
const FIRST = 120;
const MOST = 400;
const MARK = 20;
/** From this close to straight on one looks into the bore. */
const INTO = 0.15;
const DARK = [0, 0, 0] as const;

export class Cope implements Layer {
  readonly element: HTMLElement;
  private readonly slider: HTMLInputElement;
  private readonly figure = el('output', { class: 'figure' });
  private readonly says = el('p', { class: 'says' });
  private readonly title = el('h3');
  private at: { readonly id: string; readonly which: ViewEnd['which'] } | null = null;
  private edge: { readonly text: string; readonly points: readonly Vector3[] } = { text: '', points: [] };

  constructor(private readonly desk: Desk) {
    this.slider = el('input', {
      type: 'range',
      min: 0,
      max: MOST,
      step: 5,
      value: FIRST,
      'aria-label': 'Backed off by',
    });
    this.slider.addEventListener('input', () => {
      this.apply();
      desk.stage.invalidate();
    });
    this.element = el(
      'section',
      { class: 'cope', 'aria-label': 'End backed off from its host' },
      this.title,
      this.says,
      el('label', { class: 'slide' }, 'Back off', this.slider, this.figure),
      button('Put back', () => {
        this.close();
      }),
    );
    this.element.hidden = true;
    desk.watch(() => {
      this.apply();
    });
  }

  private get end(): ViewEnd | null {
    const { at, desk } = this;
    return (at && desk.thing(at.id)?.ends?.find(({ which }) => which === at.which)) ?? null;
  }

  get open(): boolean {
    return this.at !== null;
  }

  /** Backs that end off. */
  show(id: string, which: ViewEnd['which']): void {
    this.at = { id, which };
    this.slider.value = String(FIRST);
    this.desk.say(this.end?.says ?? '');
    this.desk.changed();
  }

  close(): void {
    if (!this.at) return;
    this.at = null;
    this.desk.changed();
  }

  private apply(): void {
    const { desk, end, at } = this;
    this.element.hidden = end === null;
    if (!end || !at) {
      this.at = null;
      desk.closeUp = null;
      desk.things.offset(null, new Vector3());
      return;
    }
    const far = Number(this.slider.value);
    desk.closeUp = new Set([at.id, ...end.hosts]);
    desk.things.offset(at.id, this.shift(end, far));
    const inches = desk.shown?.units === 'in';
    setText(this.figure, inches ? `${(far / 25.4).toFixed(1)} in` : `${String(far)} mm`);
    setText(this.title, `${desk.thing(at.id)?.name ?? ''}: ${end.which} end`);
    setText(this.says, end.says);
    if (end.edge !== this.edge.text) {
      const flat = floats(end.edge);
      const points = Array.from({ length: Math.floor(flat.length / 3) }, (_, n) =>
        new Vector3().fromArray(flat, n * 3),
      );
      this.edge = { text: end.edge, points };
    }
  }

  private shift(end: ViewEnd, far: number): Vector3 {
    return new Vector3(...end.away).normalize().multiplyScalar(far);
  }

  draw(overlay: Overlay): void {
    const { end, desk } = this;
    if (!end) return;
    const { palette } = desk;
    const shift = this.shift(end, Number(this.slider.value));
    const { points } = this.edge;
    overlay.line(points, { ink: palette.muted, width: 1.2, dash: [4, 4] }, true);
    const edge = points.map((point) => point.clone().add(shift));
    // Looked into, a tube is dark inside.
    if (-new Vector3(...end.away).dot(basisOf(desk.stage.pose).toward) > INTO) overlay.fill(edge, DARK, 0.5);
    overlay.line(edge, { ink: palette.accent, width: 2.4 }, true);
    for (const [index, { at, outward }] of end.clock.entries()) {
      const from = new Vector3(...at).add(shift);
      const first = index === 0;
      overlay.line([from, from.clone().addScaledVector(new Vector3(...outward), MARK)], {
        ink: first ? palette.accent : palette.foreground,
        width: first ? 2.4 : 1.2,
      });
      if (first) overlay.line([at, from], { ink: palette.accent, width: 1.2, dash: [2, 5] });
    }
  }

  labels(): readonly Label[] {
    const { end } = this;
    if (!end) return [];
    const shift = this.shift(end, Number(this.slider.value));
    return end.clock.map(({ label, at, outward }, index): Label => {
      const place = new Vector3(...at).add(shift).addScaledVector(new Vector3(...outward), MARK);
      const named = !/^\d/.test(label);
      return {
        key: `clock ${String(index)}`,
        at: place,
        text: label,
        sign: null,
        kind: 'clock',
        rank: named ? 99 : 97,
        does: null,
        centred: true,
      };
    });
  }

  /** From where the cut is seen with its host: past the host, onto the end; null: there is none. */
  toward(): Vector3 | null {
    const { end } = this;
    if (!end) return null;
    const away = new Vector3(...end.away).normalize();
    const level = Math.abs(away.z) > 0.9 ? new Vector3(0.7, 0.7, 0) : new Vector3(0, 0, 1);
    const across = level.addScaledVector(away, -away.dot(level)).normalize();
    const aside = away.clone().cross(across);
    return away.multiplyScalar(-0.62).addScaledVector(across, 0.5).addScaledVector(aside, 0.6);
  }

  /** What has to be seen: the end and its host's near part. */
  box(): readonly [Point3, Point3] | null {
    const { end, edge } = this;
    if (!end || edge.points.length === 0) return null;
    const shift = this.shift(end, Number(this.slider.value));
    const all = edge.points.flatMap((point) => [point, point.clone().add(shift)]);
    const low = all.reduce((least, point) => least.min(point), new Vector3(Infinity, Infinity, Infinity));
    const high = all.reduce((most, point) => most.max(point), new Vector3(-Infinity, -Infinity, -Infinity));
    const room = 60;
    return [
      [low.x - room, low.y - room, low.z - room],
      [high.x + room, high.y + room, high.z + room],
    ];
  }
}
