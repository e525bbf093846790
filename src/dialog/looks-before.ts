// What the looks before this one leave to it. Some of what they gave is more urgent when it is found again, and a weight says how
// the baby gained. Kept when a look begins, and counted only once this look has asked again: what nobody has looked at since is not
// still there.

import type { Case, Interpretation } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import type { Examination, GivenBefore, LooksBefore } from './session.ts';

const hour = 3_600_000;
const day = 24 * hour;
/** Sooner after one another, two weighings say nothing of how a baby gains. */
const shortestDays = 0.5;

/** Measures that are computed from what is asked. */
const askedAs: Readonly<Record<string, string>> = { weightChangePercent: 'weight', weightGrams: 'weight' };

/** What an examination gave that some rule asks for again. */
export function givenIn(
  last: Pick<Examination, 'before' | 'finishedAt' | 'startedAt'>,
  { classifications }: Pick<Interpretation, 'classifications'>,
  book: Pick<Book, 'findings' | 'isAskedAgain'>,
): LooksBefore {
  const now = last.finishedAt ?? last.startedAt;
  const given = classifications.flatMap(({ id, because }): [string, GivenBefore][] => {
    if (!book.isAskedAgain(id)) return [];
    const named = because.map(({ finding }) => askedAs[finding] ?? finding);
    const restedOn = [...new Set(named)].filter((of) => of === 'weight' || book.findings.has(of));
    return [[id, { at: last.before?.given?.[id]?.at ?? now, restedOn }]];
  });
  return given.length === 0 ? {} : { given: Object.fromEntries(given) };
}

/** The weight that an examination holds, and when it was taken. */
export function weighedIn(last: Examination, grams: unknown): LooksBefore {
  const answer = last.answers.findLast(({ values }) => typeof values?.weight === 'number');
  if (typeof grams !== 'number' || answer === undefined) return {};
  const isOfLastLook = (answer.look ?? 0) === last.earlier.length;
  if (!isOfLastLook && last.before?.weighed !== undefined) return { weighed: last.before.weighed };
  return { weighed: { grams, at: isOfLastLook && last.earlier.length > 0 ? (last.finishedAt ?? last.startedAt) : last.startedAt } };
}

/** As findings; none where the two weighings would lie too close together. */
export function previousWeight({ weighed }: LooksBefore, now: number): Readonly<Record<string, number>> {
  if (weighed === undefined) return {};
  const days = Math.round(((now - weighed.at) / day) * 10) / 10;
  return days < shortestDays ? {} : { 'previous-weight': weighed.grams, 'days-since-previous': days };
}

/** By classification, hours since it was given first; undefined: none of what it rested on was looked at again. */
export function givenBefore({ given }: LooksBefore, answered: { readonly has: (of: string) => boolean }, now: number): Case['givenBefore'] {
  const seen = Object.entries(given ?? {}).filter(([, { restedOn }]) => restedOn.length > 0 && restedOn.every((of) => answered.has(of)));
  return seen.length === 0 ? undefined : Object.fromEntries(seen.map(([id, { at }]) => [id, (now - at) / hour]));
}
