// When a text that did not go out, or did not arrive, is sent again. Pure. Next: texts.ts, delivery.ts.

import type { Sent } from '../conversation/records.ts';

/** The pause after the first failed attempt, after the second, and so on; a text that fails once more is given up. */
export interface Resending {
  readonly urgentPausesMilliseconds: readonly number[];
  readonly otherPausesMilliseconds: readonly number[];
}

const SECOND = 1_000;
const MINUTE = 60 * SECOND;

export const usualResending: Resending = {
  urgentPausesMilliseconds: [10 * SECOND, 20 * SECOND, 40 * SECOND, MINUTE, 2 * MINUTE, 5 * MINUTE, 10 * MINUTE, 20 * MINUTE],
  otherPausesMilliseconds: [MINUTE, 5 * MINUTE, 20 * MINUTE, 60 * MINUTE, 240 * MINUTE],
};

export interface Tried {
  readonly urgent: boolean;
  readonly attempts: number;
  /** Its words were erased: it does not go out again. */
  readonly wordless: boolean;
}

export interface Outcome {
  readonly state: 'due' | 'sent' | 'unknown' | 'undelivered' | 'given-up';
  /** Null: stays as it is. */
  readonly dueAt: number | null;
}

/**
 * Sent is sent. When nobody knows, an urgent text goes out again, since a nurse who reads it twice loses nothing;
 * any other does not, since each costs money. A failed one is due again after its pause, while it has one left.
 */
export function outcomeOf(sent: Sent, text: Tried, at: number, resending: Resending): Outcome {
  if (sent.kind === 'sent') return { state: 'sent', dueAt: null };
  if (sent.kind === 'unknown' && !text.urgent) return { state: 'unknown', dueAt: null };
  return againOr('given-up', text, at, resending);
}

/** What becomes of a text that the gateway took and could not deliver. */
export function outcomeOfFailedDelivery(text: Tried, at: number, resending: Resending): Outcome {
  return againOr('undelivered', text, at, resending);
}

function againOr(end: 'undelivered' | 'given-up', { urgent, attempts, wordless }: Tried, at: number, resending: Resending): Outcome {
  const pauses = urgent ? resending.urgentPausesMilliseconds : resending.otherPausesMilliseconds;
  const pause = pauses[Math.max(attempts, 1) - 1];
  return pause === undefined || wordless ? { state: end, dueAt: null } : { state: 'due', dueAt: at + pause };
}
