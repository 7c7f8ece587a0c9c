/**
 * Lines of a formatted text. What a writer has put below each other in adjacent lines (the `=` of nodes, the `{` of short
 * blocks, comments) stays below each other, as far left as it goes; nothing else is lined up.
 */

/** What may be lined up. */
export type Mark = 'equals' | 'brace' | 'comment';

interface Cell {
  readonly mark: Mark;
  /** Column in the text as it was written. */
  readonly column: number;
  /** Blanks before it at least. */
  readonly blanks: number;
  text: string;
}

interface Row {
  text: string;
  readonly cells: Cell[];
}

/** A formatted text that grows line by line. */
export class Layout {
  private readonly rows: Row[] = [];
  private gap = false;
  /** Directly behind a `{`, before a `}` and at the top of the file nothing is left empty. */
  private fresh = true;

  line(text: string): void {
    if (this.gap && !this.fresh) this.rows.push({ text: '', cells: [] });
    this.gap = false;
    this.fresh = false;
    this.rows.push({ text, cells: [] });
  }

  /** Behind the last line. */
  append(text: string): void {
    const row = this.lastRow();
    const cell = row.cells[row.cells.length - 1];
    if (cell === undefined) row.text += text;
    else cell.text += text;
  }

  /** Behind the last line, as something that may be lined up with what stands above or below it. */
  mark(mark: Mark, column: number, blanks: number, text: string): void {
    this.lastRow().cells.push({ mark, column, blanks, text });
  }

  /** Width of the last line as far as it is known. */
  width(): number {
    const { text, cells } = this.lastRow();
    return cells.reduce((sum, cell) => sum + cell.blanks + cell.text.length, text.length);
  }

  empty(): void {
    this.gap = true;
  }

  /** A block begins or ends: no empty line here. */
  edge(): void {
    this.gap = false;
    this.fresh = true;
  }

  private lastRow(): Row {
    const last = this.rows[this.rows.length - 1];
    if (last !== undefined) return last;
    const row: Row = { text: '', cells: [] };
    this.rows.push(row);
    return row;
  }

  /** The finished lines. */
  finish(): readonly string[] {
    for (const mark of ['equals', 'brace', 'comment'] as const) {
      for (let first = 0; first < this.rows.length;) first = this.alignRun(mark, first);
    }
    return this.rows.map((row) => row.text);
  }

  /** Lines up the run that begins at row `first`, joining the cell to its row's text; gives the row behind the run. */
  private alignRun(mark: Mark, first: number): number {
    const cellOf = (index: number): Cell | null => {
      const cell = this.rows[index]?.cells[0];
      return cell?.mark === mark ? cell : null;
    };
    const column = cellOf(first)?.column;
    let end = first + 1;
    while (column !== undefined && cellOf(end)?.column === column) end++;
    let width = 0;
    for (let i = first; i < end; i++)
      width = Math.max(width, (this.rows[i]?.text.length ?? 0) + (cellOf(i)?.blanks ?? 0));
    for (let i = first; i < end; i++) {
      const row = this.rows[i];
      const cell = cellOf(i);
      if (row === undefined || cell === null) continue;
      row.text = row.text.padEnd(width) + cell.text;
      row.cells.shift();
    }
    return end;
  }
}
