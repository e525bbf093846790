// Texts that did not reach a phone, or of which nobody knows, for a person to look at. Next: figures.ts, which counts them.

import type { Sql } from '../database.ts';
import { storableText } from '../storable.ts';
import { aroundPeriod, type Period } from './period.ts';
import { notDelivered } from './queries.ts';

export interface NotDelivered {
  /** Epoch milliseconds. */
  readonly at: number;
  /** Of the number; empty: nobody's any more. */
  readonly facility: string;
  readonly recipient: string;
  readonly urgent: boolean;
  readonly state: 'given-up' | 'undelivered' | 'unknown';
  readonly attempts: number;
  readonly reason: string | null;
}

/** Newest first. Never what was written: that speaks of a baby. Takes  facility: null for all of them. */
export function readNotDelivered(sql: Sql, period: Period, facility: string | null, limit: number): Promise<NotDelivered[]> {
  const { first, last } = aroundPeriod(period);
  const only = facility === null ? null : storableText(facility);
  return sql.query<NotDelivered>(notDelivered, [first, last, period.from, period.until, only, limit]);
}
