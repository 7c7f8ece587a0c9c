/** Templates of small cars, and what stands on their paper, read from the PDF's own operators. */
import type { Part } from '../../../server/geometry/shape';
import type { PacketInput, Paper } from '../../../server/papers/packet/paper';
import { packetInput } from '../../../server/papers/packet/packet';
import { analyse } from '../../support/analyse';

export type Vec3 = readonly [number, number, number];
export type Spot = readonly [number, number];

/** A straight host along y, and a skew, offset branch that a mirrored template would not fit. */
export const skew = (od: number, path: string): string => `cage "Dunlin template car"
units mm
section h { od 60; wall 2 }
section t { od ${String(od)}; wall 2 }
node a = (0, -600, 500)
node b = (0, 600, 500)
node c = (0, 40, 508)
node d = (700, 330, 760)
tube host as main-rollbar { section h; path a, b }
tube branch { section t; path ${path} }
`;

export const inputOf = async (text: string): Promise<PacketInput> => {
  const { cage, shape, findings } = await analyse(text);
  const source = { cage, shape, findings, hash: '0123456789abcdef0123', maker: 'Cagewright 9', placeOf: () => '' };
  return { ...packetInput(source), touched: new Map() };
};

export const find = (papers: readonly Paper[], name: string): Paper => {
  const found = papers.find(({ path }) => path.endsWith(name));
  if (found === undefined) throw new Error(`no ${name} among ${papers.map(({ path }) => path).join(', ')}`);
  return found;
};

export const latin = ({ content }: Paper): string =>
  typeof content === 'string' ? content : Buffer.from(content).toString('latin1');

/** Paths of straight lines of every page, in mm of paper, y down from the sheet's upper edge. */
export function pathsOf(paper: Paper): readonly (readonly (readonly Spot[])[])[] {
  return [...latin(paper).matchAll(/stream\n([\s\S]*?)\nendstream/g)].map(([, content = '']) => {
    const [sx = 0, , , sy = 0] = content.split(' ').map(Number);
    return [...content.matchAll(/(?:[-\d.]+ [-\d.]+ m)(?: [-\d.]+ [-\d.]+ l)+(?: h)?/g)].map(([path]) =>
      [...path.matchAll(/([-\d.]+) ([-\d.]+) [ml]/g)].map(([, x, y]): Spot => [
        (Number(x) * sx * 25.4) / 72,
        (Number(y) * -sy * 25.4) / 72,
      ]),
    );
  });
}

/** The curves: nothing else has so many corners. The outer edge is drawn first. */
export const long = (paths: readonly (readonly Spot[])[]): readonly (readonly Spot[])[] =>
  paths.filter(({ length }) => length > 20);

export const branchOf = (input: PacketInput): Part => {
  const part = input.shape.parts.get('branch');
  if (part === undefined) throw new Error('no branch');
  return part;
};
