// What belongs together in two editions: entries of one name, and the items of two lists that an edit has put one in place of the
// other. Next: protocol-changes.ts.

import { diffArrays } from 'diff';
import type { Place } from '../yaml-source.ts';
import { textOf } from './entry.ts';

/** One side is missing where something was added or taken out. */
export type Pair<T> =
  | { readonly before: T; readonly after: T }
  | { readonly before: T; readonly after?: undefined }
  | { readonly before?: undefined; readonly after: T };

export function pairsOf<T>(before: readonly T[], after: readonly T[], nameOf: (one: T) => string): Pair<T>[] {
  const was = new Map(before.map((one) => [nameOf(one), one]));
  const is = new Map(after.map((one) => [nameOf(one), one]));
  const gone = [...was].filter(([name]) => !is.has(name)).map(([, one]): Pair<T> => ({ before: one }));
  const here = [...is].map(([name, one]): Pair<T> => {
    const other = was.get(name);
    return other === undefined ? { after: one } : { before: other, after: one };
  });
  return [...gone, ...here];
}

/** Items without a name of their own, such as rules: only those that differ; one that only changed its place is not among them. */
export function differingItems(before: readonly Place[], after: readonly Place[]): Pair<Place>[] {
  const [was, is] = [before.map(textOf), after.map(textOf)];
  const gone = before.filter((_, at) => !is.includes(was[at] ?? ''));
  const fresh = after.filter((_, at) => !was.includes(is[at] ?? ''));
  const pairs: Pair<Place>[] = [];
  let [g, f] = [0, 0];
  const isGone = (text: string): boolean => gone[g] !== undefined && textOf(gone[g]) === text;
  const isFresh = (text: string): boolean => fresh[f] !== undefined && textOf(fresh[f]) === text;
  // Runs that stand between the same neighbours belong together, one by one.
  let run: { before: Place[]; after: Place[] } = { before: [], after: [] };
  const close = (): void => {
    for (let at = 0; at < Math.max(run.before.length, run.after.length); at++)
      pairs.push({ before: run.before[at], after: run.after[at] } as Pair<Place>);
    run = { before: [], after: [] };
  };
  for (const part of diffArrays(was, is)) {
    if (!part.added && !part.removed) close();
    for (const text of part.value) {
      if (part.removed && isGone(text)) run.before.push(gone[g++] as Place);
      if (part.added && isFresh(text)) run.after.push(fresh[f++] as Place);
    }
  }
  close();
  return pairs;
}
