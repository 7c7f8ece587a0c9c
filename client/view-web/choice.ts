/** What a hand picks, frames and looks at, whichever way it does so: on the picture, in a list, by a key. */
import type { Vector3 } from 'three';
import type { Point3 } from '../../server/view/model';
import type { FromView } from '../view/messages';
import type { Desk } from './desk';
import { pointsOf, squareOn } from './marks';
import { basisOf, framed, lookingFrom, panned, standard, turned, zoomed, type Box, type StandardView } from './pose';

export class Choice {
  constructor(private readonly desk: Desk) {}

  /** A thing or node; null: nothing. `go`: the hand wants to go on in the text. */
  pick(id: string | null, go: boolean): void {
    const { desk } = this;
    desk.picked = id;
    desk.finding = null;
    if (id === null) desk.byText = new Set();
    else desk.send({ type: 'pick', part: desk.node(id) ? 'node' : 'thing', id, focus: go });
    desk.say(desk.thing(id)?.label ?? desk.node(id)?.name ?? '');
    desk.changed();
  }

  /** Lights one finding, shows what was measured, and frames it. */
  finding(index: number, go: boolean): void {
    const { desk } = this;
    const finding = desk.model?.findings[index];
    if (!finding) return;
    desk.finding = index;
    desk.picked = null;
    desk.send(this.pickFinding(index, go));
    desk.say(finding.text);
    const marks = desk.marksOf(finding);
    const { toward } = basisOf(desk.stage.pose);
    const turned = marks.map((mark) => squareOn(mark, toward)).find((way) => way !== null) ?? null;
    const points = marks.flatMap((mark) => pointsOf(mark));
    this.frame(points.length > 0 ? desk.boxesOf([], points) : desk.boxesOf(finding.of), turned);
    desk.changed();
  }

  private pickFinding(index: number, focus: boolean): FromView {
    return { type: 'pick', part: 'finding', index, turn: this.desk.turn, focus };
  }

  /** The next finding, or the one before; round and round. */
  nextFinding(step: number): void {
    const { desk } = this;
    const count = desk.model?.findings.length ?? 0;
    if (count > 0) this.finding(desk.finding === null ? 0 : (desk.finding + step + count) % count, false);
  }

  /** To what is picked, in the text. */
  toText(): void {
    const { desk } = this;
    if (desk.picked !== null) this.pick(desk.picked, true);
    else if (desk.finding !== null) desk.send(this.pickFinding(desk.finding, true));
  }

  private frame(boxes: readonly Box[], toward: Vector3 | null = null): void {
    const { stage } = this.desk;
    const pose = toward ? lookingFrom(stage.pose, toward) : stage.pose;
    if (boxes.length > 0) stage.goTo(framed(pose, boxes, stage.aspect));
  }

  /** All of the car, or what stands out of it. */
  frameOn(all: boolean): void {
    const { desk } = this;
    const picked = all ? [] : desk.boxesOf(desk.lit());
    this.frame(picked.length > 0 ? picked : desk.whole);
  }

  /** Turns to what stands out where it is not on the picture at all; nearer or farther it does not go. */
  bringIn(): void {
    const { desk } = this;
    const { stage } = desk;
    const isSeen = (at: Point3) => {
      const { x, y, ahead } = stage.project(at);
      return ahead && x >= 0 && y >= 0 && x <= stage.width && y <= stage.height;
    };
    const points = [...desk.lit()].flatMap((id): Point3[] => {
      const at = desk.things.middle(id) ?? desk.node(id)?.at;
      return at ? [at] : [];
    });
    const [first] = points;
    if (first && !points.some(isSeen)) stage.goTo({ ...stage.pose, target: first });
  }

  /** A standard view, of what is picked where something is. */
  view(name: StandardView): void {
    const { desk } = this;
    const { stage } = desk;
    const to = standard(stage.pose, name);
    const picked = desk.picked === null ? [] : desk.boxesOf([desk.picked]);
    stage.goTo(framed(to, picked.length > 0 ? picked : desk.whole, stage.aspect));
  }

  parallel(): void {
    const { stage } = this.desk;
    stage.pose = { ...stage.pose, parallel: !stage.pose.parallel };
  }

  /** By angles, to the right and upward. */
  turn(right: number, up: number): void {
    const { stage } = this.desk;
    stage.pose = turned(stage.pose, -right, up);
  }

  /** By pixels. */
  pan(right: number, up: number): void {
    const { stage } = this.desk;
    stage.pose = panned(stage.pose, -right, up, stage.height);
  }

  zoom(factor: number): void {
    const { stage } = this.desk;
    stage.pose = zoomed(stage.pose, factor, 0, 0, stage.aspect);
  }
}
