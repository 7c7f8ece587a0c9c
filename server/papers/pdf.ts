/**
 * Scenes as a PDF (ISO 32000-1): a page a scene, a millimetre of the scene a millimetre of paper. Readers are asked to
 * print it without fitting it to the sheet. The file is ASCII, the same bytes for the same scenes, with the packet's mark
 * behind its first line. Written by hand: the library for it is half as large as the whole extension.
 */
import { LOOKS } from '../drawing/looks';
import type { Item, Point, Scene, Style } from '../drawing/scene';
import { PACKET_MARK } from './packet/marks';
import { drawable, helveticaWidth, pdfString } from './pdf-text';

/** Points to the millimetre. */
const POINTS = 72 / 25.4;

/** Thousandths of a millimetre. */
const figure = (value: number): string => {
  const rounded = Math.round(value * 1000) / 1000;
  return Number.isFinite(rounded) ? String(rounded + 0) : '0';
};

const grey = (colour: string): string => {
  const hex = colour.slice(1);
  const value = parseInt(hex.length === 3 ? hex.charAt(0).repeat(2) : hex.slice(0, 2), 16) / 255;
  return figure(Number.isFinite(value) ? value : 0);
};

const at = ({ x, y }: Point): string => `${figure(x)} ${figure(y)}`;

/** Sets pen and brush; `width` for items that have their own. */
function pen(style: Style, width: number | null): string {
  const look = LOOKS[style];
  return [
    `${figure(look.width ?? width ?? 0.2)} w`,
    `[${look.dash.map(figure).join(' ')}] 0 d`,
    `${look.roundJoin ? '1' : '0'} j ${look.roundCap ? '1' : '0'} J`,
    `${grey(look.stroke)} G`,
    ...(look.fill === null ? [] : [`${grey(look.fill)} g`]),
  ].join(' ');
}

/** Strokes, and fills where the style does. */
const paint = (style: Style): string => (LOOKS[style].fill === null ? 'S' : 'B');

const path = (points: readonly Point[], closed: boolean): string =>
  points.map((one, i) => `${at(one)} ${i === 0 ? 'm' : 'l'}`).join(' ') + (closed ? ' h' : '');

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

function words(item: Extract<Item, { kind: 'text' }>): string {
  const width = helveticaWidth(item.text, item.size, item.bold);
  const x = item.at.x - (item.anchor === 'middle' ? width / 2 : item.anchor === 'end' ? width : 0);
  // The page's y runs down: letters are turned back.
  const show = `/${item.bold ? 'B' : 'R'} ${figure(item.size)} Tf 1 0 0 -1 ${figure(x)} ${figure(item.at.y)} Tm ${pdfString(item.text)} Tj`;
  const ground = item.halo ? `BT 0.7 w [] 0 d 1 j 1 G 1 Tr ${show} ET ` : '';
  return `${ground}BT 0 g 0 Tr ${show} ET`;
}

function operators(item: Item): readonly string[] {
  switch (item.kind) {
    case 'line':
      return item.points.length < 2
        ? []
        : [`${pen(item.style, null)} ${path(item.points, item.closed)} ${paint(item.style)}`];
    case 'band':
      return item.points.length < 2 ? [] : [`${pen(item.style, item.width)} ${path(item.points, false)} S`];
    case 'arc':
      return [`${pen(item.style, null)} ${arc(item.centre, item.radius, item.from, item.to)} ${paint(item.style)}`];
    case 'circle':
      return [`${pen(item.style, null)} ${arc(item.centre, item.radius, 0, 2 * Math.PI)} h ${paint(item.style)}`];
    case 'text':
      return item.text === '' ? [] : [words(item)];
    case 'group':
      return item.items.flatMap(operators);
    case 'clip':
      return [
        `q ${at(item.at)} ${figure(item.width)} ${figure(item.height)} re W n`,
        ...item.items.flatMap(operators),
        'Q',
      ];
  }
}

/** Millimetres with y down, as scenes have it. */
const pageContent = ({ height, items }: Scene): string =>
  [`${String(POINTS)} 0 0 ${String(-POINTS)} 0 ${figure(height * POINTS)} cm`, ...items.flatMap(operators)].join('\n');

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
