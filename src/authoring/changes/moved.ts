// Which names of a list stand in another place than before: as few as can be moved to come from the one order to the other. What
// was added or taken out is not moved. Next: flow-changes.ts, protocol-changes.ts.

import { diffArrays } from 'diff';

export interface Moved {
  readonly id: string;
  /** The neighbour that it now stands before; null: it stands last. */
  readonly before: string | null;
  /** The neighbour that it now stands after; null: it stands first. */
  readonly after: string | null;
}

export function movedIn(before: readonly string[], after: readonly string[]): Moved[] {
  const [was, is] = [before.filter((id) => after.includes(id)), after.filter((id) => before.includes(id))];
  const out = new Set(diffArrays(was, is).flatMap((part) => (part.added ? part.value : [])));
  return is.flatMap((id, at) => (out.has(id) ? { id, before: is[at + 1] ?? null, after: is[at - 1] ?? null } : []));
}
