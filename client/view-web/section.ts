/** The section plane: across one axis, moved by a slider; what lies before it is taken away and its cut metal shown. */
import { Plane } from 'three';
import type { Desk } from './desk';
import { button, el, setAttribute, setText } from './dom';
import { unitOf } from './move';
import type { Section } from './state';

const AXES = ['x', 'y', 'z'] as const;
const NAMES = { x: 'Across the car', y: 'Along the car', z: 'Level' } as const;

/** What lies on its positive side stays: below the figure, or above it when flipped. */
export function planeOf(section: Section): Plane {
  const normal = unitOf(section.axis);
  return section.flip ? new Plane(normal, -section.at) : new Plane(normal.negate(), section.at);
}

export class SectionTool {
  readonly element: HTMLElement;
  private readonly slider: HTMLInputElement;
  private readonly figure = el('output', { class: 'figure' });
  private readonly flip: HTMLInputElement;
  private readonly choices: readonly HTMLButtonElement[];
  private readonly more: HTMLElement;

  constructor(
    private readonly desk: Desk,
    private readonly cut: (plane: Plane | null) => void,
  ) {
    this.slider = el('input', { type: 'range', step: 1, 'aria-label': 'Where it cuts' });
    this.slider.addEventListener('input', () => {
      this.change({ at: Number(this.slider.value) });
    });
    this.flip = el('input', { type: 'checkbox' });
    this.flip.addEventListener('change', () => {
      this.change({ flip: this.flip.checked });
    });
    this.choices = [
      button('None', () => {
        this.set(null);
      }),
      ...AXES.map((axis) =>
        button(
          NAMES[axis],
          () => {
            this.set({ axis, at: this.middle(axis), flip: false });
          },
          `Cut at one figure of ${axis}`,
        ),
      ),
    ];
    this.more = el(
      'div',
      {},
      el('label', { class: 'slide' }, 'At', this.slider, this.figure),
      el('label', { class: 'check' }, this.flip, 'Take the other side away'),
    );
    this.element = el(
      'fieldset',
      { class: 'section' },
      el('legend', {}, 'Section'),
      el('div', { class: 'row', role: 'group', 'aria-label': 'Section plane' }, ...this.choices),
      this.more,
    );
    desk.watch(() => {
      this.render();
    });
    this.apply();
  }

  /** S: the section goes on, along the car, and off again. */
  toggle(): void {
    this.set(this.desk.kept.section ? null : { axis: 'y', at: this.middle('y'), flip: false });
  }

  private ends(axis: Section['axis']): readonly [number, number] {
    const box = this.desk.shown?.box;
    const index = AXES.indexOf(axis);
    return box ? [Math.floor(box[0][index] ?? 0), Math.ceil(box[1][index] ?? 0)] : [-1000, 1000];
  }

  private middle(axis: Section['axis']): number {
    const [low, high] = this.ends(axis);
    return Math.round((low + high) / 2);
  }

  private change(part: Partial<Section>): void {
    const { section } = this.desk.kept;
    if (section) this.set({ ...section, ...part });
  }

  private set(section: Section | null): void {
    this.desk.remember({ section });
    this.apply();
    this.desk.changed();
  }

  apply(): void {
    const { section } = this.desk.kept;
    this.cut(section && planeOf(section));
    this.render();
  }

  private render(): void {
    const { section } = this.desk.kept;
    this.choices.forEach((choice, index) => {
      const axis = AXES[index - 1] ?? null;
      setAttribute(choice, 'aria-pressed', (section?.axis ?? null) === axis ? 'true' : 'false');
    });
    this.more.hidden = !section;
    if (!section) return;
    const [low, high] = this.ends(section.axis);
    setAttribute(this.slider, 'min', low);
    setAttribute(this.slider, 'max', high);
    this.slider.value = String(section.at);
    this.flip.checked = section.flip;
    const inches = this.desk.shown?.units === 'in';
    setText(
      this.figure,
      `${section.axis} ${inches ? `${(section.at / 25.4).toFixed(1)} in` : `${String(section.at)} mm`}`,
    );
  }
}
