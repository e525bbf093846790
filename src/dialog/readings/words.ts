// The words of one language that stand for something inside an answer, and the shapes that every reader returns.
// The words come from locales/<tag>; nothing here is English. Next: tokens.ts, number.ts, time.ts, marks.ts.

/** Lists of words, lower case, by what they stand for: `hours`, `ago`, `not-known`, `girl` ... */
export interface Words {
  readonly readings: Readonly<Record<string, readonly string[]>>;
  /** Label, lower case -> finding or field: `t` -> `temperature`. */
  readonly labels: ReadonlyMap<string, string>;
}

/** A reader's answer. Refusal is a value: `reason` names a message under `refused.` and carries what it needs. */
export type Read<T> =
  | { readonly kind: 'read'; readonly value: T; readonly used: number }
  /** Readable, but not believable as it stands: asked back before it counts. */
  | { readonly kind: 'doubt'; readonly value: T; readonly used: number }
  /** The worker says that it cannot be had. */
  | { readonly kind: 'not-known'; readonly used: number }
  | { readonly kind: 'refused'; readonly reason: Refusal; readonly used: number };

export interface Refusal {
  readonly code: string;
  readonly values: Readonly<Record<string, string | number>>;
}

export function refused(code: string, used: number, values: Readonly<Record<string, string | number>>): Read<never> {
  return { kind: 'refused', reason: { code, values }, used };
}

export function isWord(words: Words, what: string, token: string): boolean {
  return words.readings[what]?.includes(token) ?? false;
}
