// The words of one language that stand for something inside an answer, and the shapes that every reader returns.
// The words come from locales/<tag>; nothing here is English. Next: tokens.ts, number.ts, time.ts, marks.ts.

/** Lists of words, lower case, by what they stand for: `hours`, `ago`, `not-known`, `girl` ... */
export interface Words {
  readonly readings: Readonly<Record<string, readonly string[]>>;
  /** Label, lower case -> finding or field: `t` -> `temperature`. */
  readonly labels: ReadonlyMap<string, string>;
  /** Word for a body region -> the regions it stands for: `genitals` -> `girl`, `boy`. */
  readonly regions: ReadonlyMap<string, readonly string[]>;
  /** Word -> the sign it stands for: `fed` -> `feeding=well`. */
  readonly signs: ReadonlyMap<string, string>;
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

/** How much of what cannot be read is quoted back. */
const quotedLetters = 20;

export function refused(code: string, used: number, values: Readonly<Record<string, string | number>>): Read<never> {
  return { kind: 'refused', reason: refusal(code, values), used };
}

/** A reason that quotes no more of the message than a text can hold. */
export function refusal(code: string, values: Readonly<Record<string, string | number>>): Refusal {
  const { text } = values;
  return {
    code,
    values: typeof text === 'string' ? { ...values, text: [...text.slice(0, 2 * quotedLetters)].slice(0, quotedLetters).join('') } : values,
  };
}

export function isWord(words: Words, what: string, token: string): boolean {
  return words.readings[what]?.includes(token) ?? false;
}
