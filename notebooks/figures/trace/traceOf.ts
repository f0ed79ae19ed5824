/** What a value is made from and what depends on it, by names. */
export interface Trace {
  /** From what it is made of, by way of itself (depth 0), to what depends on it. */
  readonly columns: readonly TraceColumn[];
  /** Pairs of names that are shown: the second is made from the first. */
  readonly edges: readonly (readonly [from: string, to: string])[];
  /** How many more there are than the steps reach, on either side. */
  readonly beyond: { readonly madeFrom: number; readonly users: number };
}

export interface TraceColumn {
  /** Steps from the value: below 0 what it is made from, above 0 what depends on it. */
  readonly depth: number;
  readonly names: readonly string[];
  /** Left out for want of room. */
  readonly more: number;
}

export interface TraceGraph {
  /** Names that a name is made from directly. */
  needsOf(name: string): readonly string[];
  /** Names that are made from it directly. */
  usersOf(name: string): readonly string[];
}

/** Steps either way. */
const traceSteps = 3;
/** Names that one column has room for. */
const mostNames = 6;

/** The neighbourhood of a name: three steps either way. What has several ways to it stands as many steps away as the longest of them. */
export function traceOf(name: string, graph: TraceGraph): Trace {
  const madeFrom = layers(name, (each) => graph.needsOf(each));
  const users = layers(name, (each) => graph.usersOf(each));
  const columns = [
    ...madeFrom.layers.map((names, i) => columnOf(-(i + 1), names)).reverse(),
    columnOf(0, [name]),
    ...users.layers.map((names, i) => columnOf(i + 1, names)),
  ];
  const shown = new Set(columns.flatMap(({ names }) => names));
  const edges = [...shown].flatMap((to) =>
    graph
      .needsOf(to)
      .filter((from) => shown.has(from))
      .map((from) => [from, to] as const),
  );
  return { columns, edges, beyond: { madeFrom: madeFrom.beyond, users: users.beyond } };
}

function columnOf(depth: number, names: readonly string[]): TraceColumn {
  return { depth, names: names.slice(0, mostNames), more: Math.max(0, names.length - mostNames) };
}

function layers(
  start: string,
  next: (name: string) => readonly string[],
): { readonly layers: readonly (readonly string[])[]; readonly beyond: number } {
  const depths = new Map<string, number>();
  let names: readonly string[] = [start];
  for (let depth = 1; depth <= traceSteps; depth++) {
    names = [...new Set(names.flatMap(next))].filter((name) => name !== start);
    for (const name of names) depths.set(name, depth);
  }
  const found = Array.from({ length: traceSteps }, (_, i) => [...depths].filter(([, depth]) => depth === i + 1).map(([name]) => name));
  const all = new Set<string>([start]);
  const queue = [start];
  for (let name = queue.pop(); name !== undefined; name = queue.pop())
    for (const each of next(name)) {
      if (all.has(each)) continue;
      all.add(each);
      queue.push(each);
    }
  return { layers: found.filter((layer) => layer.length > 0), beyond: all.size - 1 - depths.size };
}
