// An instant on a page, by the clock of a zone, with the zone's name: so that nobody takes one hospital's time for another's.

import { DateTime } from 'luxon';
import type { VNode } from 'preact';
import type { Visit } from '../route.ts';

interface Given {
  /** Epoch milliseconds. */
  readonly at: number;
  readonly zone: string;
}

export function Moment({ at, zone }: Given): VNode {
  const there = DateTime.fromMillis(at, { zone, locale: 'en' });
  return <time dateTime={new Date(at).toISOString()}>{[there.toFormat('d LLL yyyy'), there.toFormat('HH:mm ZZZZ')].join(' ')}</time>;
}

/** The zone of whoever looks: of her facility, else of the first on the roster, else UTC. */
export function zoneOf({ account, parts }: Pick<Visit, 'account' | 'parts'>): string {
  const own = account.phone === null ? undefined : parts.roster.facilityOf(account.phone);
  return (own ?? parts.roster.data().facilities[0])?.zone ?? 'UTC';
}
