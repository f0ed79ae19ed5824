/** In which order named things can be worked out, and which of them never can. */
export interface DependencyOrder {
  /** Every name after all those that it needs; without the members of circles, and with those that only wait for one. */
  readonly order: readonly string[];
  /** For every name that needs itself: the way round, from the name back to it. */
  readonly circles: ReadonlyMap<string, readonly string[]>;
}

/**
 * Tarjan's strongly connected components (SIAM Journal on Computing 1, 1972, 146 to 160), which come out in order of dependence, with a stack
 * of its own: a chain of many thousand names must not overflow the call stack.
 *
 * @param needs which names each name needs; names that are no key are of no concern here
 */
export function dependencyOrder(needs: ReadonlyMap<string, readonly string[]>): DependencyOrder {
  const order: string[] = [];
  const circles = new Map<string, readonly string[]>();
  const visited = new Map<string, { readonly number: number; lowest: number; open: boolean }>();
  const open: string[] = [];

  const enter = (name: string) => {
    const visit = { number: visited.size, lowest: visited.size, open: true };
    visited.set(name, visit);
    open.push(name);
    return { name, visit, needed: needs.get(name) ?? [], next: 0 };
  };

  const close = (name: string) => {
    const members = open.splice(open.lastIndexOf(name));
    for (const member of members) (visited.get(member) as { open: boolean }).open = false;
    if (members.length === 1 && !needs.get(name)?.includes(name)) order.push(name);
    else for (const member of members) circles.set(member, wayRound(member, new Set(members), needs));
  };

  for (const root of needs.keys()) {
    if (visited.has(root)) continue;
    const path = [enter(root)];
    for (let step = path.at(-1); step !== undefined; step = path.at(-1)) {
      const needed = step.needed[step.next++];
      if (needed === undefined) {
        path.pop();
        const above = path.at(-1);
        if (above) above.visit.lowest = Math.min(above.visit.lowest, step.visit.lowest);
        if (step.visit.lowest === step.visit.number) close(step.name);
        continue;
      }
      if (!needs.has(needed)) continue;
      const known = visited.get(needed);
      if (known === undefined) path.push(enter(needed));
      else if (known.open) step.visit.lowest = Math.min(step.visit.lowest, known.number);
    }
  }
  return { order, circles };
}

/** The shortest way from a member of a circle back to itself. */
function wayRound(from: string, members: ReadonlySet<string>, needs: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const cameFrom = new Map<string, string>();
  const queue = [from];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    for (const needed of needs.get(at) ?? []) {
      if (needed === from) return [...wayTo(at, from, cameFrom), from];
      if (!members.has(needed) || cameFrom.has(needed)) continue;
      cameFrom.set(needed, at);
      queue.push(needed);
    }
  }
  return [from];
}

function wayTo(name: string, from: string, cameFrom: ReadonlyMap<string, string>): string[] {
  const way = [name];
  for (let at = name; at !== from; ) {
    at = cameFrom.get(at) as string;
    way.unshift(at);
  }
  return way;
}

/** All names that need a name, directly or by way of others; without the name itself, in the order in which they are given. */
export function usersOf(name: string, needs: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const users = new Map<string, string[]>();
  for (const [user, needed] of needs)
    for (const each of needed) {
      const known = users.get(each);
      if (known) known.push(user);
      else users.set(each, [user]);
    }
  const found = new Set<string>();
  const queue = [name];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    for (const user of users.get(at) ?? []) {
      if (found.has(user)) continue;
      found.add(user);
      queue.push(user);
    }
  }
  found.delete(name);
  return [...needs.keys()].filter((each) => found.has(each));
}
