/**
 * Scenes as a PDF (ISO 32000-1): a page a scene, a millimetre of the scene a millimetre of paper. Readers are asked to
 * print it without fitting it to the sheet. The file is ASCII, the same bytes for the same scenes, with the packet's mark
 * behind its first line. Written by hand: the library for it is half as large as the whole extension.
 */
import { LOOKS, STYLES } from '../drawing/looks';
import type { Item, Point, Scene, Style } from '../drawing/scene';
import { PACKET_MARK } from './packet/marks';
import { drawable, helveticaWidth, pdfString } from './pdf-text';

/** Points to the millimetre. */
const POINTS = 72 / 25.4;

/** Thousandths of a millimetre. */
function figure(value: number): string {
  const parts = Math.round(value * 1000);
  if (!Number.isFinite(parts)) return '0';
  const whole = Math.trunc(parts / 1000);
  const rest = Math.abs(parts - whole * 1000);
  if (rest === 0) return String(whole + 0);
  const digits = String(1000 + rest);
  const cut = rest % 10 !== 0 ? 4 : rest % 100 !== 0 ? 3 : 2;
  return `${parts < 0 && whole === 0 ? '-0' : String(whole)}.${digits.slice(1, cut)}`;
}

const grey = (colour: string): string => {
  const hex = colour.slice(1);
  const value = parseInt(hex.length === 3 ? hex.charAt(0).repeat(2) : hex.slice(0, 2), 16) / 255;
  return figure(Number.isFinite(value) ? value : 0);
};

const at = ({ x, y }: Point): string => `${figure(x)} ${figure(y)}`;

/** Sets the pen; `width` for items that have their own. */
function pen(style: Style, width: number | null): string {
  const look = LOOKS[style];
  return [
    `${figure(look.width ?? width ?? 0.2)} w`,
    `[${look.dash.map(figure).join(' ')}] 0 d`,
    `${look.roundJoin ? '1' : '0'} j ${look.roundCap ? '1' : '0'} J`,
    `${grey(look.stroke)} G`,
  ].join(' ');
}

/** Of lines that have no width of their own: worked out once. */
const PENS: ReadonlyMap<string, string> = new Map(STYLES.map((style) => [style, pen(style, null)]));
const FILLS: ReadonlyMap<string, string> = new Map(
  STYLES.flatMap((style) => {
    const { fill } = LOOKS[style];
    return fill === null ? [] : [[style, `${grey(fill)} g`] as const];
  }),
);

const path = (points: readonly Point[], closed: boolean): string => {
  let said = '';
  for (const one of points) said += said === '' ? `${at(one)} m` : ` ${at(one)} l`;
  return closed ? `${said} h` : said;
};

/** At most so much of a circle is one curve: then it is off by less than a thousandth of its radius. */
const CURVE = Math.PI / 4;

/** An arc as Bézier curves: handles of 4/3·tan(a/4) of the radius, the usual approximation. */
function arc(centre: Point, radius: number, from: number, to: number): string {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / CURVE));
  const step = (to - from) / count;
  const k = (4 / 3) * Math.tan(step / 4) * radius;
  const on = (angle: number, along: number): Point => ({
    x: centre.x + radius * Math.cos(angle) - along * Math.sin(angle),
    y: centre.y + radius * Math.sin(angle) + along * Math.cos(angle),
  });
  const curves = [`${at(on(from, 0))} m`];
  for (let i = 0; i < Math.min(count, 64); i++) {
    const [a, b] = [from + i * step, from + (i + 1) * step];
    curves.push(`${at(on(a, k))} ${at(on(b, -k))} ${at(on(b, 0))} c`);
  }
  return curves.join(' ');
}

const HALO = '0.7 w [] 0 d 1 j 0 J 1 G';

/** Writes one page's operators. What pen and brush are set to already is not set again. */
class PageWriter {
  private readonly parts: string[];
  private pen = '';
  private brush = '';

  constructor({ height }: Scene) {
    // Millimetres with y down, as scenes have it.
    this.parts = [`${String(POINTS)} 0 0 ${String(-POINTS)} 0 ${figure(height * POINTS)} cm`];
  }

  get content(): string {
    return this.parts.join('\n');
  }

  private setPen(said: string): void {
    if (said !== this.pen) this.parts.push(said);
    this.pen = said;
  }

  private setBrush(said: string): void {
    if (said !== this.brush) this.parts.push(said);
    this.brush = said;
  }

  /** A path that is stroked, and filled where its style does. */
  private draw(style: Style, said: string): void {
    this.setPen(PENS.get(style) ?? '');
    const fill = FILLS.get(style);
    if (fill !== undefined) this.setBrush(fill);
    this.parts.push(`${said} ${fill === undefined ? 'S' : 'B'}`);
  }

  private words(item: Extract<Item, { kind: 'text' }>): void {
    const width = item.anchor === 'start' ? 0 : helveticaWidth(item.text, item.size, item.bold);
    const x = item.at.x - (item.anchor === 'middle' ? width / 2 : width);
    // The page's y runs down: letters are turned back.
    const show = `/${item.bold ? 'B' : 'R'} ${figure(item.size)} Tf 1 0 0 -1 ${figure(x)} ${figure(item.at.y)} Tm ${pdfString(item.text)} Tj ET`;
    if (item.halo) {
      this.setPen(HALO);
      this.parts.push(`BT 1 Tr ${show}`);
    }
    this.setBrush('0 g');
    this.parts.push(`BT 0 Tr ${show}`);
  }

  add(item: Item): void {
    switch (item.kind) {
      case 'line':
        if (item.points.length >= 2) this.draw(item.style, path(item.points, item.closed));
        return;
      case 'band':
        if (item.points.length < 2) return;
        this.setPen(pen(item.style, item.width));
        this.parts.push(`${path(item.points, false)} S`);
        return;
      case 'arc':
        this.draw(item.style, arc(item.centre, item.radius, item.from, item.to));
        return;
      case 'circle':
        this.draw(item.style, `${arc(item.centre, item.radius, 0, 2 * Math.PI)} h`);
        return;
      case 'text':
        if (item.text !== '') this.words(item);
        return;
      case 'group':
        for (const one of item.items) this.add(one);
        return;
      case 'clip': {
        const [outerPen, outerBrush] = [this.pen, this.brush];
        this.parts.push(`q ${at(item.at)} ${figure(item.width)} ${figure(item.height)} re W n`);
        for (const one of item.items) this.add(one);
        this.parts.push('Q');
        [this.pen, this.brush] = [outerPen, outerBrush];
      }
    }
  }
}

function pageContent(scene: Scene): string {
  const writer = new PageWriter(scene);
  for (const item of scene.items) writer.add(item);
  return writer.content;
}

/** A file of a page for each scene. `title`: for the reader's window. */
export function pdfFile(scenes: readonly Scene[], title: string): Uint8Array {
  const FIRST_PAGE = 6;
  const pages = scenes.map((_, i) => FIRST_PAGE + 2 * i);
  const font = (name: string): string =>
    `<< /Type /Font /Subtype /Type1 /BaseFont /${name} /Encoding /WinAnsiEncoding >>`;
  const objects: readonly string[] = [
    '<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None /PickTrayByPDFSize true /DisplayDocTitle true >> >>',
    `<< /Type /Pages /Kids [${pages.map((id) => `${String(id)} 0 R`).join(' ')}] /Count ${String(pages.length)} >>`,
    font('Helvetica'),
    font('Helvetica-Bold'),
    `<< /Title ${pdfString(drawable(title))} /Producer (Cagewright) >>`,
    ...scenes.flatMap((scene, i) => {
      const content = pageContent(scene);
      const box = `[0 0 ${figure(scene.width * POINTS)} ${figure(scene.height * POINTS)}]`;
      return [
        `<< /Type /Page /Parent 2 0 R /MediaBox ${box} /Resources << /Font << /R 3 0 R /B 4 0 R >> >> /Contents ${String(FIRST_PAGE + 2 * i + 1)} 0 R >>`,
        `<< /Length ${String(content.length)} >>\nstream\n${content}\nendstream`,
      ];
    }),
  ];
  const chunks = [`%PDF-1.7\n% ${PACKET_MARK}\n`];
  let offset = chunks[0]?.length ?? 0;
  const offsets = objects.map((object, i) => {
    const chunk = `${String(i + 1)} 0 obj\n${object}\nendobj\n`;
    const start = offset;
    chunks.push(chunk);
    offset += chunk.length;
    return start;
  });
  const table = offsets.map((one) => `${String(one).padStart(10, '0')} 00000 n \n`).join('');
  const size = String(objects.length + 1);
  chunks.push(
    `xref\n0 ${size}\n0000000000 65535 f \n${table}trailer\n<< /Size ${size} /Root 1 0 R /Info 5 0 R >>\nstartxref\n${String(offset)}\n%%EOF\n`,
  );
  // Every sign is ASCII: a byte each.
  const text = chunks.join('');
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}
