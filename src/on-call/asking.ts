// Whom to ask about an alert that nobody has taken. One person after another in the order of the chain, or so many at one time, each
// once a round; when all were asked in vain, a pause, and all again: it never falls silent. Pure, knows people by their numbers only.
// Next: src/conversation/due-alert.ts, which asks them; src/conversation/pass-alert.ts, for one who says no.

export interface Asking {
  /** All who were asked, in order, over all rounds. */
  readonly asked: readonly string[];
  /** Who can be asked now, first one first: the nurses on call, then the coordinators. Never empty. */
  readonly chain: readonly string[];
  /** How many are asked at one time, 1 or more. One who says no is followed by one, since the others are asked still. */
  readonly atOnce: number;
  /** Who says no now; left out: the time limit of the last one asked is over. */
  readonly passing?: string;
  /** The pause after this round is over. */
  readonly hasPaused: boolean;
}

export type NextAsk =
  /** `beside`: who is asked at the same time. */
  | { readonly kind: 'ask'; readonly who: string; readonly beside: readonly string[] }
  /** All were asked in this round. */
  | { readonly kind: 'pause' }
  /** The one who says no is the only one who can be asked. */
  | { readonly kind: 'nobody-else' };

export function nextAsk({ asked, chain, atOnce, passing, hasPaused }: Asking): NextAsk {
  const round = currentRound(asked);
  const others = chain.filter((who) => who !== passing);
  const fresh = others.filter((who) => !round.includes(who));
  const mayBeginAgain = passing !== undefined || hasPaused;
  const [who, ...more] = fresh.length === 0 && mayBeginAgain ? others : fresh;
  if (who !== undefined) return { kind: 'ask', who, beside: passing === undefined ? more.slice(0, atOnce - 1) : [] };
  return { kind: passing === undefined ? 'pause' : 'nobody-else' };
}

/** Who was asked since the last round began. A round ends when somebody is asked a second time, and by nothing else. */
export function currentRound(asked: readonly string[]): readonly string[] {
  let round: readonly string[] = [];
  for (const who of asked) round = round.includes(who) ? [who] : [...round, who];
  return round;
}
