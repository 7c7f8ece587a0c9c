/** The hover of the text, shown at the pointer: blocks of words made into elements, never read as markup. */
import type { HoverBlock, Run } from '../view/messages';
import { el } from './dom';
import { placeTip, type Spot } from './place-tip';

const runs = (all: readonly Run[]): Node[] =>
  all.map(({ text, style }) =>
    style === 'strong'
      ? el('strong', {}, text)
      : style === 'code'
        ? el('code', {}, text)
        : document.createTextNode(text),
  );

function blockOf(block: HoverBlock): HTMLElement {
  if (block.kind === 'code') return el('pre', {}, block.text);
  if (block.kind === 'rule') return el('hr');
  if (block.kind === 'table') {
    const [head, ...rows] = block.rows;
    const cells = (row: readonly (readonly Run[])[], tag: 'th' | 'td') =>
      el('tr', {}, ...row.map((cell) => el(tag, {}, ...runs(cell))));
    const heads = head?.some((cell) => cell.length > 0) ? el('thead', {}, cells(head, 'th')) : null;
    return el('table', {}, heads, el('tbody', {}, ...rows.map((row) => cells(row, 'td'))));
  }
  const tag = block.kind === 'heading' ? 'h4' : block.kind === 'item' ? 'li' : 'p';
  return el(tag, {}, ...runs(block.runs));
}

/** The elements of a hover; items that follow each other stand in one list. */
export function hoverElements(blocks: readonly HoverBlock[]): HTMLElement[] {
  const made: HTMLElement[] = [];
  for (const block of blocks) {
    const element = blockOf(block);
    const last = made.at(-1);
    if (block.kind !== 'item') made.push(element);
    else if (last instanceof HTMLUListElement) last.append(element);
    else made.push(el('ul', {}, element));
  }
  return made;
}

/** Takes columns away, the last first, until a table is no wider than the hover; true: it had to. */
function narrow(table: HTMLTableElement, box: HTMLElement): boolean {
  const isWide = () => table.offsetLeft + table.offsetWidth > box.clientWidth;
  if (!isWide()) return false;
  while (isWide() && (table.rows[0]?.cells.length ?? 0) > 2)
    for (const row of table.rows) row.deleteCell(row.cells.length - 1);
  if (isWide()) table.remove();
  return true;
}

/** Rows of a table that are kept as long as there is something else to give up. */
const KEPT_ROWS = 2;

/**
 * What a hover without room gives up next: what stands last; but the first figures of the first table are given up after
 * the words before it. Null: only what it is about is left.
 */
function leastOf(rest: HTMLElement): Element | null {
  const last = rest.previousElementSibling;
  const before = last?.previousElementSibling;
  if (!last) return null;
  const row = last.querySelector(':scope > tbody > tr:nth-last-child(1):nth-child(n + 2)');
  const isFirst = last === rest.parentElement?.querySelector(':scope > table');
  const isKept = isFirst && (row === null || (row.parentElement?.childElementCount ?? 0) <= KEPT_ROWS);
  if (before?.previousElementSibling && isKept) return before;
  return row ?? last.querySelector(':scope > li:nth-last-child(1):nth-child(n + 2)') ?? (before ? last : null);
}

const REST = 180;

/** Asks for the hover of what the pointer rests on, and shows the answer there. */
export class Hover {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private asked: string | null = null;
  private at = { x: 0, y: 0 };

  constructor(
    private readonly box: HTMLElement,
    private readonly ask: (id: string | null) => void,
    /** Points of the picture that a thing covers. */
    private readonly spread: (id: string) => readonly Spot[],
  ) {}

  /** The pointer is over that, at a point of the picture. */
  over(id: string | null, x: number, y: number): void {
    this.at = { x, y };
    if (id === this.asked) return;
    this.close();
    this.asked = id;
    if (id === null) {
      this.ask(null);
      return;
    }
    this.timer = setTimeout(() => {
      this.ask(id);
    }, REST);
  }

  answer(id: string, blocks: readonly HoverBlock[]): void {
    if (id !== this.asked || blocks.length === 0) return;
    this.box.replaceChildren(...hoverElements(blocks));
    this.box.hidden = false;
    this.cut();
    const { offsetWidth: width, offsetHeight: height, offsetParent } = this.box;
    const room = { width: offsetParent?.clientWidth ?? width, height: offsetParent?.clientHeight ?? height };
    const { x, y } = placeTip(this.at, { width, height }, room, this.spread(id));
    this.box.style.transform = `translate(${String(Math.round(x))}px, ${String(Math.round(y))}px)`;
  }

  /** What is larger than the style sheet lets it be ends with a line that says so. */
  private cut(): void {
    const { box } = this;
    const isOver = () => box.scrollHeight > box.clientHeight + 1;
    const narrowed = [...box.querySelectorAll('table')].filter((table) => narrow(table, box)).length > 0;
    if (!narrowed && !isOver()) return;
    const rest = el('p', { class: 'rest' }, 'The rest stands in the hover of the text.');
    box.append(rest);
    for (let least = leastOf(rest); least; least = leastOf(rest)) {
      // A line or a heading ends nothing.
      if (!isOver() && !/^(HR|H4)$/.test(least.tagName)) return;
      least.remove();
    }
  }

  close(): void {
    clearTimeout(this.timer);
    this.asked = null;
    this.box.hidden = true;
  }
}
