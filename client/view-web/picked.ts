/** What is picked, in words, and what can be done with it. */
import type { ViewEnd } from '../../server/view/model';
import type { Desk } from './desk';
import { button, el } from './dom';
import { hangsOn } from './handles';
import { symbol } from './symbols';

export interface PickedDeeds {
  toText(): void;
  frame(): void;
  finding(index: number): void;
  end(id: string, which: ViewEnd['which']): void;
}

const END_WORDS = { first: 'Back off first end', last: 'Back off last end' } as const;

export class PickedBox {
  readonly element = el('section', { class: 'picked', 'aria-label': 'Picked' });
  private drawn = '';

  constructor(
    private readonly desk: Desk,
    private readonly deeds: PickedDeeds,
  ) {
    desk.watch(() => {
      this.render();
    });
    this.render();
  }

  private render(): void {
    const { desk, deeds } = this;
    const thing = desk.thing(desk.picked);
    const node = desk.node(desk.picked);
    const found = desk.finding === null ? null : (desk.shown?.findings[desk.finding] ?? null);
    const findings = desk.picked === null ? [] : desk.findingsOf(desk.picked);
    const key = JSON.stringify([
      thing?.id,
      thing?.label,
      thing?.ends?.length,
      node,
      found?.text,
      findings.map((f) => f.text),
    ]);
    if (key === this.drawn) return;
    this.drawn = key;
    this.element.hidden = !thing && !node && !found;
    const actions = el(
      'div',
      { class: 'row' },
      button('To the text', deeds.toText.bind(deeds)),
      button('Frame', deeds.frame.bind(deeds), null, 'F'),
    );
    for (const end of thing?.ends ?? []) {
      if (end.edge === '' && end.clock.length === 0) continue;
      const act = button(END_WORDS[end.which], () => {
        deeds.end(thing?.id ?? '', end.which);
      });
      act.title = end.says;
      actions.append(act);
    }
    this.element.replaceChildren(
      ...(found && !thing && !node ? [el('p', { class: 'found' }, symbol(found.severity), ` ${found.text}`)] : []),
      ...(thing ? [el('h3', {}, thing.label)] : []),
      ...(node ? [el('h3', {}, node.name), el('p', {}, hangsOn(node))] : []),
      ...findings.map((finding) => {
        const act = button('', () => {
          deeds.finding(desk.shown?.findings.indexOf(finding) ?? -1);
        });
        act.className = 'found';
        act.append(symbol(finding.severity), el('span', {}, finding.text));
        return act;
      }),
      actions,
    );
  }
}
