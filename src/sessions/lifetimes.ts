// How long the sessions' three kinds of memory last. One object for both stores, so that they cannot drift apart.
// Next: redis.ts, embedded.ts.

const SECOND = 1_000;
const DAY = 86_400 * SECOND;

export interface Lifetimes {
  /** A phone's lock, when the process that took it dies. Longer than the slowest turn, shorter than a worker's patience. */
  readonly lockMilliseconds: number;
  /** A session after its last turn. */
  readonly sessionMilliseconds: number;
  /** The reply kept under a message's id. Longer than any gateway goes on redelivering. */
  readonly replyMilliseconds: number;
}

export const usualLifetimes: Lifetimes = {
  lockMilliseconds: 10 * SECOND,
  sessionMilliseconds: 30 * DAY,
  replyMilliseconds: 3 * DAY,
};
