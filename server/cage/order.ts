/**
 * The one dependency graph, in any order: what hangs on others is worked out after them, and what hangs on itself is
 * found. Tarjan's strongly connected components (R. Tarjan, Depth-first search and linear graph algorithms, 1972), with
 * a stack of its own, so that a chain of any length is no deeper than one of two.
 */

/** A vertex; the two marks belong to {@link settle}. */
export interface Vertex {
  /** 0: not looked at; > 0: on the way; -1: settled. */
  mark: number;
  low: number;
}

/**
 * Settles `root` and all that it hangs on: calls `settled` with one component after the other, each after those it
 * hangs on. A component of several, or of one that hangs on itself, is a circle.
 */
export function settle<V extends Vertex>(
  root: V,
  needs: (vertex: V) => readonly V[],
  settled: (component: readonly V[], circle: boolean) => void,
): void {
  if (root.mark !== 0) return;
  let counter = 1;
  const open: V[] = [];
  const path: { readonly vertex: V; readonly needs: readonly V[]; next: number; self: boolean }[] = [];
  const enter = (vertex: V): void => {
    vertex.mark = vertex.low = counter++;
    open.push(vertex);
    path.push({ vertex, needs: needs(vertex), next: 0, self: false });
  };
  enter(root);
  for (let frame = path[path.length - 1]; frame !== undefined; frame = path[path.length - 1]) {
    const { vertex } = frame;
    const need = frame.needs[frame.next++];
    if (need !== undefined) {
      if (need === vertex) frame.self = true;
      else if (need.mark === 0) enter(need);
      else if (need.mark > 0) vertex.low = Math.min(vertex.low, need.mark);
      continue;
    }
    path.pop();
    const above = path[path.length - 1];
    if (above !== undefined) above.vertex.low = Math.min(above.vertex.low, vertex.low);
    if (vertex.low !== vertex.mark) continue;
    const component = open.splice(open.lastIndexOf(vertex));
    for (const member of component) member.mark = -1;
    settled(component, component.length > 1 || frame.self);
  }
}
