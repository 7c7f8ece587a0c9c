/** Works a value out when it is first asked for, and keeps it. */
export function once<T>(make: () => T): () => T {
  let value: { readonly made: T } | null = null;
  return () => (value ??= { made: make() }).made;
}
