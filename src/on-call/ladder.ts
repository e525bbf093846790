// Climbing a ladder of questions: which steps are due now, and when the next one is. It goes by the clock and not by counting,
// so that work that was held up, or answered late, asks whom it should have asked by then, once, and goes on in time.
// The steps themselves are data: follow-up.ts.

import type { Asked, Ladder } from './follow-up.ts';

export interface Climb {
  /** Who is asked now, each once, in the order of the steps. */
  readonly asks: readonly Asked[];
  /** Number of the last step that is due, from 0. */
  readonly step: number;
  /** When the next step is due; null: that was the last. */
  readonly next: number | null;
}

/**
 * The steps that have come since the work fell due.
 *
 * Takes    since: the instant that the ladder counts from. dueAt: when the work fell due. now: >= dueAt.
 *          release: the first instant from a step's own on at which it may be taken (quiet hours), never earlier with a later step.
 * Returns  before the first step: nobody, and the first step as the next.
 */
export function climb(ladder: Ladder, since: number, dueAt: number, now: number, release: (at: number) => number): Climb {
  const times = ladder.map(({ afterMinutes }) => release(since + afterMinutes * 60_000));
  const step = times.findLastIndex((at) => at <= now);
  const first = times.findIndex((at) => at >= dueAt);
  const due = ladder.slice(first === -1 ? step : Math.min(first, step), step + 1);
  return { asks: [...new Set(due.flatMap(({ asks }) => asks))], step, next: times[step + 1] ?? null };
}
