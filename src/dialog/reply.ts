// What a turn says, as data: keys and values, never sentences. src/conversation puts it into words and fits it to
// the channel, so that the same turn reads well in one text, on a small screen, and in every language.

/** One thing to say: a key of the catalogue and what goes into its places. A value may itself be a thing to say, or a list. */
export interface Say {
  readonly key: string;
  readonly values?: Readonly<Record<string, SayValue>>;
}
export type SayValue = string | number | Say | readonly Say[];

/** One line of a question that is answered with its digit. */
export interface Option {
  readonly digit: string;
  readonly label: Say;
}

export interface Question {
  readonly title: Say;
  readonly options: readonly Option[];
  /** Said after the options: an example, what to send when something is not known. */
  readonly tail: readonly Say[];
}

/** A result too long for one text: `head` and `foot` stand on its first page, `lines` fill what is left and are paged. */
export interface Result {
  readonly head: readonly Say[];
  readonly lines: readonly Say[];
  readonly foot: readonly Say[];
  /** Segments a page may take by SMS. */
  readonly segments: 1 | 2;
}

export interface Reply {
  /** Answers to what was just sent, said before the question as far as they fit; the result says them again. */
  readonly told: readonly Say[];
  readonly question?: Question;
  readonly result?: Result;
  /** Which page of the result, or of a question too long for its screen, is wanted; 0 is the first. */
  readonly page: number;
  /** True: nothing is asked any more, and a USSD call ends here. */
  readonly ends: boolean;
}

export function say(key: string, values?: Readonly<Record<string, SayValue>>): Say {
  return values === undefined ? { key } : { key, values };
}
