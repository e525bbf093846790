// How the pages name a baby, a person, a place, an instant and what was found: the words of phones where they have them, in the
// language of the pages. Next: alerts-page.tsx, baby-page.tsx.

import { DateTime } from 'luxon';
import { babyNamed } from '../../conversation/naming.ts';
import type { Found, WatchedBaby } from '../../conversation/watch.ts';
import { reasonsFor } from '../../dialog/phrases.ts';
import { say } from '../../messages/catalogue.ts';
import type { Visit } from '../route.ts';

export function babyName(baby: WatchedBaby, { parts }: Visit): string {
  const { catalogues } = parts.inUse();
  const { key, values } = babyNamed(baby, parts.now());
  return say(catalogues, catalogues.base, key, values);
}

export function foundWords(found: readonly Found[], { parts }: Visit): string {
  const { catalogues, book } = parts.inUse();
  return reasonsFor(found as Parameters<typeof reasonsFor>[0], book)
    .map(({ key, values }) => say(catalogues, catalogues.base, key, values))
    .join('; ');
}

export function personName(phone: string | null, { parts }: Visit): string {
  return (phone === null ? undefined : parts.roster.find(phone)?.name) ?? phone ?? '';
}

export function placeName(facility: string | null, { parts, say: words }: Visit): string {
  return facility === null ? words('care.place-not-known') : (parts.roster.facility(facility)?.name ?? facility);
}

/** As the facility's wall shows it: "27 Nov 09:35". */
export function clockTime(at: number, facility: string | null, { parts }: Visit): string {
  const zone = facility === null ? undefined : parts.roster.facility(facility)?.zone;
  return DateTime.fromMillis(at, { zone: zone ?? 'utc' }).toFormat('d LLL HH:mm');
}

/** Whole minutes, or hours from two hours on. */
export function ago(at: number, { parts, say: words }: Visit): string {
  const minutes = Math.max(0, Math.floor((parts.now() - at) / 60_000));
  return minutes < 120 ? words('care.minutes', { minutes }) : words('care.hours', { hours: Math.floor(minutes / 60) });
}
