// What an earlier look at the baby gave: some of it is more urgent when it is found again. Kept when the next look begins, and
// counted only once that look has asked again for all that it rested on: what nobody has looked at since is not still there.

import type { Case, Interpretation } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import type { Examination, GivenBefore } from './session.ts';

const hour = 3_600_000;

/** Measures that are computed from what is asked. */
const askedAs: Readonly<Record<string, string>> = { weightChangePercent: 'weight', weightGrams: 'weight' };

/** What is to be kept of the examination for its next look. */
export function givenAt(
  last: Pick<Examination, 'before' | 'finishedAt' | 'startedAt'>,
  { interpretation }: { readonly interpretation: Interpretation },
  book: Pick<Book, 'findings' | 'isAskedAgain'>,
): Pick<Examination, 'before'> {
  const now = last.finishedAt ?? last.startedAt;
  const given = interpretation.classifications.flatMap(({ id, because }): [string, GivenBefore][] => {
    if (!book.isAskedAgain(id)) return [];
    const named = because.map(({ finding }) => askedAs[finding] ?? finding);
    const restedOn = [...new Set(named)].filter((of) => of === 'weight' || book.findings.has(of));
    return [[id, { at: last.before?.[id]?.at ?? now, restedOn }]];
  });
  return given.length === 0 ? {} : { before: Object.fromEntries(given) };
}

/** By classification, hours since it was given first; undefined: none of what it rested on was looked at again. */
export function givenBeforeIn(
  before: Examination['before'],
  answered: { readonly has: (of: string) => boolean },
  now: number,
): Case['givenBefore'] {
  if (before === undefined) return undefined;
  const seen = Object.entries(before).filter(([, { restedOn }]) => restedOn.length > 0 && restedOn.every((of) => answered.has(of)));
  return seen.length === 0 ? undefined : Object.fromEntries(seen.map(([id, { at }]) => [id, (now - at) / hour]));
}
