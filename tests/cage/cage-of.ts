/** A text, or several, as a cage; and what its findings say, as short lines. */
import type { Finding } from '../../grammar/finding';
import { parseFile } from '../../grammar/parser';
import { buildCage } from '../../server/cage/build';
import type { Cage, Thing } from '../../server/cage/cage';
import type { UseTarget } from '../../server/cage/uses';
import { usedPaths } from '../../server/cage/uses';
import type { Vec3 } from '../../server/centreline/vector';

export const BOOKS: readonly string[] = ['fia-253', 'shop'];

export interface Read {
  readonly cage: Cage;
  readonly texts: Readonly<Record<string, string>>;
  /** Findings of the text and of the cage. */
  readonly findings: readonly Finding[];
}

/** Reads `car.cage` with that text; paths are keys of `files`, `../` lies outside. */
export function read(text: string, files: Readonly<Record<string, string>> = {}): Read {
  const texts: Record<string, string> = { 'car.cage': text, ...files };
  const trees = new Map(Object.entries(texts).map(([file, one]) => [file, parseFile(file, one)]));
  const target = (path: string): UseTarget => {
    if (path.startsWith('../')) return { kind: 'outside' };
    return { kind: texts[path] === undefined ? 'missing' : 'file', file: path };
  };
  const uses = new Map(
    [...trees].map(([file, tree]) => [file, new Map(usedPaths(tree).map((path) => [path, target(path)]))]),
  );
  const cage = buildCage({ root: 'car.cage', trees, uses, books: BOOKS });
  return { cage, texts, findings: [...[...trees.values()].flatMap((tree) => tree.findings), ...cage.findings] };
}

/** `code 'the text that it points at'`, in the order of the text. */
export function told({ findings, texts }: Read): readonly string[] {
  return findings.map((finding) => {
    if (finding.at.kind !== 'place') return finding.code;
    const { file, span } = finding.at.place;
    return `${finding.code} '${(texts[file] ?? '').slice(span.start, span.end)}'`;
  });
}

/** The one finding of that code. */
export function only(result: Read, code: string): Finding {
  const found = result.findings.filter((finding) => finding.code === code);
  if (found.length !== 1 || found[0] === undefined)
    throw new Error(`${String(found.length)} of ${code}: ${told(result).join(', ')}`);
  return found[0];
}

/** Coordinates of a node, rounded to a millionth of a millimetre. */
export function at({ cage }: Read, name: string): Vec3 | null {
  const node = cage.things.get(name);
  if (node?.kind !== 'node' || node.at === null) return null;
  const [x, y, z] = node.at.map((c) => Math.round(c * 1e6) / 1e6 + 0);
  return [x ?? 0, y ?? 0, z ?? 0];
}

/** A thing of a kind, by its full name. */
export function thing<K extends Thing['kind']>({ cage }: Read, kind: K, name: string): Extract<Thing, { kind: K }> {
  const found = cage.things.get(name);
  if (found?.kind !== kind) throw new Error(`no ${kind} ${name} among ${[...cage.things.keys()].join(', ')}`);
  return found as Extract<Thing, { kind: K }>;
}
