// The facility, the one above it, the one above that: whose nurses and coordinators are asked in turn. Next: rota.ts.

/** From the one that is named on up; a loop ends where it would begin again, and nothing that is not there is in it. */
export function chainFrom<F extends { readonly above: string | null }>(id: string, find: (id: string) => F | undefined): readonly F[] {
  const chain: F[] = [];
  let next = find(id);
  while (next !== undefined && !chain.includes(next)) {
    chain.push(next);
    next = next.above === null ? undefined : find(next.above);
  }
  return chain;
}
