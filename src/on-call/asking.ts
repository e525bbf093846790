// Whom to ask about an alert that nobody has taken. One person after another in the order of the chain, each once a round; when
// all were asked in vain, a pause, and all again: it never falls silent. Pure, knows people by their numbers only.
// Next: src/conversation/due-alert.ts, which asks them; src/conversation/pass-alert.ts, for one who says no.

export interface Asking {
  /** All who were asked, in order, over all rounds. */
  readonly asked: readonly string[];
  /** Who can be asked now, first one first: the nurses on call, then the coordinators. Never empty. */
  readonly chain: readonly string[];
  /** Who says no now; left out: the time limit of the last one asked is over. */
  readonly passing?: string;
  /** The pause after this round is over. */
  readonly hasPaused: boolean;
}

export type NextAsk =
  | { readonly kind: 'ask'; readonly who: string }
  /** All were asked in this round. */
  | { readonly kind: 'pause' }
  /** The one who says no is the only one who can be asked. */
  | { readonly kind: 'nobody-else' };

export function nextAsk({ asked, chain, passing, hasPaused }: Asking): NextAsk {
  const round = currentRound(asked);
  const others = chain.filter((who) => who !== passing);
  const fresh = others.find((who) => !round.includes(who));
  if (fresh !== undefined) return { kind: 'ask', who: fresh };
  const [first] = others;
  if (passing !== undefined) return first === undefined ? { kind: 'nobody-else' } : { kind: 'ask', who: first };
  return hasPaused && first !== undefined ? { kind: 'ask', who: first } : { kind: 'pause' };
}

/** Who was asked since the last round began. A round ends when somebody is asked a second time, and by nothing else. */
export function currentRound(asked: readonly string[]): readonly string[] {
  let round: readonly string[] = [];
  for (const who of asked) round = round.includes(who) ? [who] : [...round, who];
  return round;
}
