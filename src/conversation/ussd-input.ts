// What was keyed last in a USSD call. Gateways send all that was keyed since the dial, joined by `*`; keeping that text and
// taking what was added lets an answer hold a `*` itself, as 36*8 on a keypad without a full stop. Pure.

export interface Dial {
  readonly id: string;
  readonly keyed: string;
}

export type Keyed =
  /** A call that has just been dialled; what the dial string itself carried is no answer. */
  { readonly kind: 'dialled' } | { readonly kind: 'answer'; readonly text: string };

export function keyedLast(before: Dial | undefined, id: string, keyed: string): Keyed {
  if (before === undefined || before.id !== id || keyed === before.keyed) return { kind: 'dialled' };
  if (before.keyed === '') return { kind: 'answer', text: keyed };
  const prefix = `${before.keyed}*`;
  // A gateway that dropped an earlier part: the last piece is the best that can be known.
  return { kind: 'answer', text: keyed.startsWith(prefix) ? keyed.slice(prefix.length) : keyed.slice(keyed.lastIndexOf('*') + 1) };
}
