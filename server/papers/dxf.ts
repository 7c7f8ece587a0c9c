/**
 * Scenes as DXF, for a plotter or a plasma table: lines in millimetres at full size, y up. A layer for each style; what a
 * group with `data.layer` holds lies on the layer of that name. Words have one of their own. Broken lines have a line type
 * of their style's name.
 */
import { DxfWriter, point2d, point3d, TextHorizontalAlignment, Units } from '@tarikjabiri/dxf';
import { degrees } from '../../grammar/units';
import { LOOKS } from '../drawing/looks';
import type { Item, Scene, Style } from '../drawing/scene';
import { PACKET_MARK } from './packet/marks';
import { helveticaWidth } from './pdf-text';

const BLACK = 7;
const WORDS = 'words';
const { Center: MIDDLE, Right: END } = TextHorizontalAlignment;
/** The format's height of letters is that of capitals: of the body's height, Helvetica's, from memory. */
const CAPITALS = 0.72;

/** Signs that the format has an order of its own for, which every program knows, or that plain ones do for. */
const ORDERS: Readonly<Record<string, string>> = { '°': '%%d', '±': '%%p', Ø: '%%c', '·': '-', '×': 'x' };

/** Text as the format writes it: no line ends, no control signs; what begins an order (`%%`, `\`) is taken apart. */
const plain = (text: string): string =>
  text
    .replace(/[\p{Cc}\p{Cs}]/gu, ' ')
    .replaceAll('\\', '/')
    .replaceAll('%%', '% %')
    .replace(/[°±Ø·×]/g, (sign) => ORDERS[sign] ?? sign)
    .replace(/[^ -~]/gu, (sign) => {
      const code = sign.codePointAt(0) ?? 63;
      return code > 0xffff ? '?' : `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
    });

/** The whole scene as one file; the packet's mark stands in its first comment. Same scene, same bytes. */
export function dxfFile(scene: Scene): string {
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  const layers = new Set<string>();
  let named: string | null = null;
  const dashes = new Set<string>();
  const layerOf = (of: Style | typeof WORDS): { readonly layerName: string; readonly lineType?: string } => {
    const name = of === WORDS ? WORDS : (named ?? of);
    if (!layers.has(name)) {
      layers.add(name);
      writer.addLayer(name, BLACK, 'Continuous');
    }
    const dash = of === WORDS ? [] : LOOKS[of].dash;
    if (dash.length === 0) return { layerName: name };
    if (!dashes.has(of)) {
      dashes.add(of);
      // Gaps are negative.
      writer.addLType(
        of,
        dash.map((_, i) => (i % 2 === 0 ? '__' : ' ')).join(''),
        dash.map((length, i) => (i % 2 === 0 ? length : -length)),
      );
    }
    return { layerName: name, lineType: of };
  };
  const up = (y: number): number => scene.height - y;
  const add = (item: Item): void => {
    switch (item.kind) {
      case 'line':
      case 'band': {
        if (item.points.length < 2) return;
        const corners = item.points.map(({ x, y }) => ({ point: point2d(x, up(y)) }));
        const ring = item.kind === 'line' && item.closed ? corners.slice(0, 1) : [];
        writer.addLWPolyline([...corners, ...ring], layerOf(item.style));
        return;
      }
      case 'arc':
        // y is turned over: what ran clockwise on the paper runs back.
        writer.addArc(
          point3d(item.centre.x, up(item.centre.y)),
          item.radius,
          -degrees(item.to),
          -degrees(item.from),
          layerOf(item.style),
        );
        return;
      case 'circle':
        writer.addCircle(point3d(item.centre.x, up(item.centre.y)), item.radius, layerOf(item.style));
        return;
      case 'text':
        {
          const width = helveticaWidth(item.text, item.size, item.bold);
          const x = item.at.x - (item.anchor === 'middle' ? width / 2 : item.anchor === 'end' ? width : 0);
          // Every program has letters of its own width: it is told where their middle or end is.
          const anchored =
            item.anchor === 'start'
              ? {}
              : {
                  horizontalAlignment: item.anchor === 'middle' ? MIDDLE : END,
                  secondAlignmentPoint: point3d(item.at.x, up(item.at.y)),
                };
          writer.addText(point3d(x, up(item.at.y)), item.size * CAPITALS, plain(item.text), {
            ...layerOf(WORDS),
            ...anchored,
          });
        }
        return;
      case 'group': {
        const outside = named;
        named = item.data['layer'] ?? named;
        for (const one of item.items) add(one);
        named = outside;
        return;
      }
      case 'clip':
        for (const one of item.items) add(one);
    }
  };
  for (const item of scene.items) add(item);
  return `999\n${PACKET_MARK}\n${writer.stringify()}`;
}
