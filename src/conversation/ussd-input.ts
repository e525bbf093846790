// What was keyed last in a USSD call. Gateways send all that was keyed since the dial, joined by `*`; keeping that text and
// taking what was added lets an answer hold a `*` itself, as 36*8 on a keypad without a full stop. Others send each answer alone. Pure.

export interface Dial {
  readonly id: string;
  readonly keyed: string;
}

export type Keyed =
  /** A call that has just been dialled; what the dial string itself carried is no answer. */
  { readonly kind: 'dialled' } | { readonly kind: 'answer'; readonly text: string };

export function keyedLast(before: Dial | undefined, id: string, keyed: string): Keyed {
  const shown = before?.keyed.includes(veil) === true ? veiled(keyed) : keyed;
  if (before === undefined || before.id !== id || shown === before.keyed) return { kind: 'dialled' };
  if (before.keyed === '') return { kind: 'answer', text: keyed };
  const prefix = `${before.keyed}*`;
  // A gateway that dropped an earlier part: the last piece is the best that can be known.
  return { kind: 'answer', text: shown.startsWith(prefix) ? keyed.slice(prefix.length) : keyed.slice(keyed.lastIndexOf('*') + 1) };
}

const veil = '_';

/** What was keyed, as a session may hold it: a piece that may be a PIN keeps its length alone. */
export function veiled(keyed: string): string {
  return keyed.replace(/\d{4,}/g, (digits) => veil.repeat(digits.length));
}

/** Of a gateway that sends each answer alone. Takes begins: it says that the call was just dialled. */
export function keyedAlone(before: Dial | undefined, id: string, begins: boolean, keyed: string): Keyed {
  // An answer in a call that this session does not know answers a question that it did not ask.
  return begins || before?.id !== id ? { kind: 'dialled' } : { kind: 'answer', text: keyed };
}
