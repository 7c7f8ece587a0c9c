/** Words over the picture, in elements of the page: they follow what they are about and make room for each other. */
import type { Vector3 } from 'three';
import type { Point3 } from '../../server/view/model';
import { el } from './dom';
import type { Severity } from './looks';
import type { Overlay } from './overlay';
import type { Rgb } from './palette';
import { placeLabels, type Placed } from './place-labels';
import type { OnPicture } from './stage';
import { symbol } from './symbols';

export interface Label {
  readonly key: string;
  readonly at: Point3 | Vector3;
  readonly text: string;
  readonly sign: Severity | null;
  /** `figure`: measured; `name`: of a thing; `problem`; `ground`: scale and directions; `clock`: marks round a tube; `region`: where something may be. */
  readonly kind: 'figure' | 'name' | 'problem' | 'ground' | 'clock' | 'region';
  readonly rank: number;
  /** What a click does; null: it lets clicks through. */
  readonly does: (() => void) | null;
  /** Only the sign where there is no room close by. */
  readonly quiet?: boolean;
  /** Only the sign, right over its place; the words come when the pointer is on it. */
  readonly mute?: boolean;
  /** Right over its place. */
  readonly centred?: boolean;
  /** Of the finding that is looked at. */
  readonly chosen?: boolean;
}

interface Shown {
  label: Label;
  readonly element: HTMLElement;
  readonly words: HTMLElement;
  width: number;
  height: number;
}

/** A label as it stands, for the picture that is saved and for the line that leads to it. */
export interface Standing {
  readonly label: Label;
  readonly placed: Placed;
  readonly anchor: OnPicture;
  readonly width: number;
  readonly height: number;
}

/** Whether one element on the page serves for both. */
const looksLike = (a: Label, b: Label) =>
  a.text === b.text && a.sign === b.sign && a.kind === b.kind && a.mute === b.mute && a.chosen === b.chosen;

const SMALL = 18;
/** Half of what stays clear round a point that a hand wants to take hold of. */
const GRIP = 7;
/** Half of what stays clear round a point of a line. */
const STROKE = 3;

export class Labels {
  private readonly shown = new Map<string, Shown>();
  standing: readonly Standing[] = [];

  constructor(private readonly layer: HTMLElement) {}

  /** The labels that are wanted now. */
  update(labels: readonly Label[]): void {
    const fresh: Shown[] = [];
    const stays = new Set<string>();
    for (const label of labels) {
      if (stays.has(label.key)) continue;
      stays.add(label.key);
      const had = this.shown.get(label.key);
      if (had && looksLike(had.label, label)) {
        had.label = label;
        continue;
      }
      had?.element.remove();
      const made = this.make(label);
      this.shown.set(label.key, made);
      fresh.push(made);
    }
    for (const [key, { element }] of this.shown) {
      if (stays.has(key)) continue;
      element.remove();
      this.shown.delete(key);
    }
    // Sizes are asked for once all stand on the page: one layout for all of them.
    for (const one of fresh) {
      one.width = one.element.offsetWidth;
      one.height = one.element.offsetHeight;
    }
  }

  private make(label: Label): Shown {
    const words = el('span', { class: 'words' }, label.text);
    const how = `${label.does ? ' live' : ''}${label.mute ? ' mute' : ''}${label.chosen ? ' chosen' : ''}`;
    const element = el('div', { class: `label ${label.kind} ${label.sign ?? ''}${how}` });
    if (label.sign) element.append(symbol(label.sign));
    element.append(words);
    const shown: Shown = { label, element, words, width: 0, height: 0 };
    element.addEventListener('click', () => shown.label.does?.());
    this.layer.append(element);
    return shown;
  }

  /**
   * Puts every label where its thing is on the picture.
   * @param grips points that a hand wants to take hold of
   * @param nodes points that it might
   * @param drawn points of lines that are to be seen
   */
  place(
    project: (at: Point3 | Vector3) => OnPicture,
    width: number,
    height: number,
    grips: readonly (Point3 | Vector3)[],
    nodes: readonly Point3[],
    drawn: readonly (Point3 | Vector3)[],
  ): void {
    const round = (points: readonly (Point3 | Vector3)[], half: number) =>
      points.flatMap((at) => {
        const { x, y, ahead } = project(at);
        return ahead ? [{ x: x - half, y: y - half, width: 2 * half, height: 2 * half }] : [];
      });
    const anchors = new Map<string, OnPicture>();
    const wanted = [];
    for (const [key, { label, width: w, height: h }] of this.shown) {
      const anchor = project(label.at);
      if (!anchor.ahead) continue;
      anchors.set(key, anchor);
      wanted.push({
        key,
        x: anchor.x,
        y: anchor.y,
        width: w,
        height: h,
        small: label.sign ? SMALL : 0,
        near: (label.quiet ?? false) || (label.mute ?? false),
        centred: (label.centred ?? false) || (label.mute ?? false),
        rank: label.rank,
      });
    }
    const placed = new Map(
      placeLabels(wanted, width, height, round(grips, GRIP), round(nodes, GRIP), round(drawn, STROKE)).map((one) => [
        one.key,
        one,
      ]),
    );
    const standing: Standing[] = [];
    for (const [key, { label, element, words, width: w, height: h }] of this.shown) {
      const at = placed.get(key);
      const anchor = anchors.get(key);
      element.classList.toggle('away', !at);
      if (!at || !anchor) continue;
      const mute = label.mute ?? false;
      words.hidden = at.short && !mute;
      element.classList.toggle('leftward', mute && at.x > width / 2);
      // A sign alone is all that tells of its finding, so it keeps the pointer.
      element.classList.toggle('through', at.over && !mute);
      element.style.transform = `translate(${String(Math.round(at.x))}px, ${String(Math.round(at.y))}px)`;
      standing.push({ label, placed: { ...at, short: at.short || mute }, anchor, width: w, height: h });
    }
    this.standing = standing;
  }

  /** Lines from words that had to stand off to what they are about. */
  lead(overlay: Overlay, ink: Rgb): void {
    for (const { placed, anchor, width, height } of this.standing) {
      if (!placed.led) continue;
      const x = placed.x > anchor.x ? placed.x : placed.x + width;
      overlay.stroke([anchor, { ...anchor, x, y: placed.y + height / 2 }], { ink, width: 1 });
    }
  }
}
