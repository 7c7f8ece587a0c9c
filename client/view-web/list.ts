/** A list of the page that a filter narrows: one line a thing, picked with a click or Enter. */
import { el, setAttribute, setText } from './dom';
import type { Severity } from './looks';
import { rove } from './rove';
import { symbol } from './symbols';

export interface Line {
  /** Unique in the list, and the same after an edit. */
  readonly id: string;
  readonly text: string;
  /** In smaller type under it; '' for none. */
  readonly more: string;
  readonly sign: Severity | null;
}

interface Row {
  readonly line: Line;
  readonly element: HTMLElement;
}

export interface ListWords {
  readonly label: string;
  readonly filter: string;
  readonly empty: string;
}

export class List {
  readonly element: HTMLElement;
  private readonly field: HTMLInputElement;
  private readonly box: HTMLElement;
  private readonly none: HTMLElement;
  private readonly roving: { refresh: (current?: HTMLElement) => void };
  private rows: Row[] = [];
  private lines: readonly Line[] = [];
  private chosen: string | null = null;

  /** @param pick `go`: the hand wants to go on in the text */
  constructor(
    private readonly words: ListWords,
    pick: (id: string, go: boolean) => void,
    keys: (id: string, event: KeyboardEvent) => void = () => undefined,
  ) {
    this.field = el('input', {
      type: 'search',
      class: 'filter',
      placeholder: words.filter,
      'aria-label': words.filter,
    });
    this.box = el('div', { class: 'list', role: 'listbox', 'aria-label': words.label });
    this.none = el('p', { class: 'none' }, words.empty);
    this.element = el('div', { class: 'list-with-filter' }, this.field, this.box, this.none);
    this.field.addEventListener('input', () => {
      this.render();
    });
    this.field.addEventListener('keydown', (event) => {
      if (event.key !== 'ArrowDown') return;
      event.preventDefault();
      this.box.querySelector<HTMLElement>('[tabindex="0"]')?.focus();
    });
    const idAt = (target: EventTarget | null) =>
      target instanceof Element ? (target.closest<HTMLElement>('[role="option"]')?.dataset['id'] ?? null) : null;
    this.box.addEventListener('click', (event) => {
      const id = idAt(event.target);
      if (id !== null) pick(id, event.detail > 1 || event.ctrlKey || event.metaKey);
    });
    this.box.addEventListener('keydown', (event) => {
      const id = idAt(event.target);
      if (id === null) return;
      keys(id, event);
      if (event.defaultPrevented || (event.key !== 'Enter' && event.key !== ' ')) return;
      event.preventDefault();
      event.stopPropagation();
      pick(id, event.ctrlKey || event.metaKey);
    });
    this.roving = rove(this.box, '[role="option"]');
  }

  update(lines: readonly Line[]): void {
    this.lines = lines;
    this.render();
  }

  /** Marks one as picked and brings it into view. */
  choose(id: string | null): void {
    if (this.chosen === id) return;
    this.chosen = id;
    for (const { line, element } of this.rows)
      setAttribute(element, 'aria-selected', line.id === id ? 'true' : 'false');
    const at = this.rows.find(({ line }) => line.id === id)?.element;
    if (!at) return;
    at.scrollIntoView({ block: 'nearest' });
    if (!this.box.contains(document.activeElement)) this.roving.refresh(at);
  }

  /** Lines keep their elements, so that focus and scrolling survive an edit. */
  private render(): void {
    const asked = this.field.value.trim().toLowerCase();
    const wanted = this.lines.filter(
      ({ text, more }) => asked === '' || `${text} ${more}`.toLowerCase().includes(asked),
    );
    const had = new Map(this.rows.map((row) => [row.line.id, row]));
    this.rows = wanted.map((line) => {
      const row = had.get(line.id);
      had.delete(line.id);
      return row && same(row.line, line) ? row : { line, element: this.rowOf(line, row?.element ?? null) };
    });
    for (const { element } of had.values()) element.remove();
    this.rows.forEach(({ line, element }, index) => {
      const at = this.box.children[index];
      if (at !== element) this.box.insertBefore(element, at ?? null);
      setAttribute(element, 'aria-selected', line.id === this.chosen ? 'true' : 'false');
    });
    this.none.hidden = this.rows.length > 0;
    this.box.hidden = this.rows.length === 0;
    setText(this.none, this.lines.length === 0 ? this.words.empty : 'Nothing here has these letters.');
    this.field.hidden = this.lines.length < 8 && asked === '';
    this.roving.refresh();
  }

  private rowOf(line: Line, had: HTMLElement | null): HTMLElement {
    const element = had ?? el('div', { role: 'option', tabindex: -1 });
    element.dataset['id'] = line.id;
    element.replaceChildren(
      ...(line.sign ? [symbol(line.sign)] : []),
      el('span', { class: 'words' }, line.text, line.more === '' ? null : el('span', { class: 'more' }, line.more)),
    );
    return element;
  }
}

const same = (a: Line, b: Line) => a.text === b.text && a.more === b.more && a.sign === b.sign;
