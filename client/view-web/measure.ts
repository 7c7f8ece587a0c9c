/** Tape and angle gauge: two things are picked, the editor tells what lies between them, the picture shows where. */
import type { Vector3 } from 'three';
import type { MeasureAnswer, Picked } from '../../server/lsp/view-wire';
import type { Desk, Layer } from './desk';
import { button, el, setAttribute } from './dom';
import type { Label } from './labels';
import { drawMark, strokesOf, wordsAt } from './marks';
import type { Overlay } from './overlay';

export class Measure implements Layer {
  readonly element: HTMLElement;
  private readonly toggle: HTMLButtonElement;
  private readonly hint = el('p', { class: 'hint' });
  private readonly lines = el('dl', { class: 'figures', 'aria-live': 'polite', 'aria-label': 'What was measured' });
  private readonly copy: HTMLButtonElement;
  private picked: readonly Picked[] = [];
  private answer: MeasureAnswer | null = null;
  private number = 0;

  constructor(private readonly desk: Desk) {
    this.toggle = button('Measure', () => {
      this.set(!desk.measuring);
    });
    this.copy = button('Copy as text', () => {
      desk.send({ type: 'copy', text: this.text() });
    });
    this.element = el(
      'fieldset',
      { class: 'measure' },
      el('legend', {}, 'Measure'),
      el('div', { class: 'row' }, this.toggle, this.copy),
      this.hint,
      this.lines,
    );
    this.render();
  }

  /** Begins or ends measuring. */
  set(on: boolean): void {
    this.desk.measuring = on;
    this.picked = [];
    this.answer = null;
    this.render();
    this.desk.say(on ? 'Pick the first thing to measure from.' : '');
    this.desk.changed();
  }

  /** A hand picked something while measuring; a third begins anew. */
  pick(picked: Picked): void {
    this.answer = null;
    this.picked = this.picked.length === 1 ? [...this.picked, picked] : [picked];
    const [a, b] = this.picked;
    if (a && b) {
      this.number += 1;
      this.desk.send({ type: 'measure', number: this.number, a, b });
    } else this.desk.say(`From ${this.nameOf(picked.id)}. Pick the second.`);
    this.render();
    this.desk.changed();
  }

  /** The editor's answer. */
  measured(number: number, answer: MeasureAnswer | null): void {
    if (number !== this.number || !this.desk.measuring) return;
    this.answer = answer;
    const [first] = answer?.lines ?? [];
    this.desk.say(first ? `${first.what}: ${first.says}` : 'These two cannot be measured.');
    this.render();
    this.desk.changed();
  }

  /** An edit may have moved what was measured: it is asked again. */
  modelCame(): void {
    const [a, b] = this.picked;
    const known = (id: string) => this.desk.thing(id) ?? this.desk.node(id);
    if (!this.picked.every(({ id }) => known(id))) {
      this.picked = [];
      this.answer = null;
      this.render();
    } else if (a && b) {
      this.number += 1;
      this.desk.send({ type: 'measure', number: this.number, a, b });
    }
  }

  private nameOf(id: string): string {
    return this.desk.thing(id)?.name ?? this.desk.node(id)?.name ?? id;
  }

  private get names(): string {
    return this.picked.map(({ id }) => this.nameOf(id)).join(' – ');
  }

  private text(): string {
    const lines = this.answer?.lines.map(({ what, says }) => `${what}: ${says}`) ?? [];
    return `${[this.names, ...lines].join('\n')}\n`;
  }

  private render(): void {
    const { desk, answer } = this;
    setAttribute(this.toggle, 'aria-pressed', desk.measuring ? 'true' : 'false');
    this.copy.hidden = !answer;
    this.hint.textContent = !desk.measuring
      ? 'Pick two things or nodes and read distance and angles.'
      : this.picked.length === 0
        ? 'Pick the first.'
        : this.picked.length === 1
          ? `From ${this.names}: pick the second.`
          : this.names;
    this.lines.replaceChildren(
      ...(answer?.lines ?? []).flatMap(({ what, says }) => [el('dt', {}, what), el('dd', {}, says)]),
    );
  }

  draw(overlay: Overlay): void {
    const { desk, answer } = this;
    if (!desk.measuring) return;
    const ink = desk.palette.accent;
    for (const { at } of this.picked) overlay.dot(overlay.project(at), 5, ink, false);
    for (const mark of answer?.marks ?? []) drawMark(overlay, mark, { ink, width: 2.4 });
  }

  strokes(): readonly Vector3[] {
    return this.desk.measuring ? (this.answer?.marks ?? []).flatMap(strokesOf) : [];
  }

  labels(): readonly Label[] {
    if (!this.desk.measuring) return [];
    return (this.answer?.marks ?? []).map((mark, index): Label => {
      const at = wordsAt(mark);
      return {
        key: `measured ${String(index)}`,
        at,
        text: mark.says,
        sign: null,
        kind: 'figure',
        rank: 105,
        does: null,
      };
    });
  }
}
