/** Cope templates of a packet: for each end with a fish-mouth a PDF for both sizes of sheet, an SVG and a DXF. */
import type { Part } from '../../geometry/shape';
import { dxfFile } from '../dxf';
import { svgFile } from '../../drawing/svg';
import { PACKET_MARK } from '../packet/marks';
import { endLabel } from '../packet/numbers';
import { fromBend } from '../on-tape';
import type { Maker, PacketInput, Paper } from '../packet/paper';
import { pdfFile } from '../pdf';
import { drawWrap, otherEnd } from './draw';
import type { Template } from './pages';
import { bareSheet, pagesOf, SHEETS, wholeSheet } from './pages';
import { wrapOf } from './wrap';

/** The templates of both ends of a part; an end that is sawn or not known has none. */
export function templatesOf(part: Part, input: PacketInput): readonly Template[] {
  const number = input.numbers.get(part.name);
  if (number === undefined) return [];
  return part.ends.flatMap((end, i): readonly Template[] => {
    const wrap = wrapOf(part, end, input.shape);
    if (wrap === null) return [];
    const hosts = end.hosts.map((name) => input.numbers.get(name)?.label ?? name).join(', ');
    const other = otherEnd(end, part.ends[i === 0 ? 1 : 0].node);
    const drawn = drawWrap(wrap, {
      digits: number.digits,
      hand: number.hand,
      name: `${part.tube.base}${part.piece === null ? '' : `, piece ${part.piece}`}`,
      hosts,
      other,
      held:
        wrap.bend === null
          ? null
          : `long point ${fromBend(wrap.bend - wrap.minCut, `bend ${String(end.which === 'first' ? 1 : part.bends.length)}`, input.units)}`,
      numberOf: (name) => input.numbers.get(name)?.digits ?? name,
    });
    return [{ part, wrap, number, hosts, other, drawn }];
  });
}

/** Parts that an open error touches have none. */
export const templatePapers: Maker = (input) =>
  [...input.numbers.values()].flatMap((number): readonly Paper[] => {
    const part = input.shape.parts.get(number.name);
    if (part === undefined || input.touched.has(part.name)) return [];
    return templatesOf(part, input).flatMap((template): readonly Paper[] => {
      const { end } = template.wrap;
      const path = `templates/${number.path}-end-${end.which === 'first' ? '1' : '2'}`;
      const what = `Cope template ${number.label}, ${endLabel(end)}`;
      const paper = (suffix: string, sort: string, content: string | Uint8Array): Paper => ({
        path: `${path}.${suffix}`,
        title: `${what}, ${sort}`,
        kind: 'template',
        parts: [part.name],
        content,
      });
      return [
        ...SHEETS.map((sheet) =>
          paper(`${sheet.path}.pdf`, sheet.name, pdfFile(pagesOf(template, sheet, input), what)),
        ),
        paper('svg', 'SVG', svgFile(wholeSheet(template, input), PACKET_MARK)),
        paper('dxf', 'DXF', dxfFile(bareSheet(template, input, what))),
      ];
    });
  });
