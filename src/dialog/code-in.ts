// The code of a baby at the beginning of a message: "7FK", "7fk 1", "7FK she feeds well". A unit behind a digit looks the same
// (5HR, 4AM); which of the two is meant depends on the question that stands, and is for the caller to say.

import { codeDigits, codeLetters } from './examination.ts';
import { normalise } from './readings/tokens.ts';
import type { Words } from './readings/words.ts';
import { referralAnswerIn } from './referral-question.ts';

export interface Coded {
  readonly code: string;
  /** What follows it, as it was normalised; empty when nothing does. */
  readonly rest: string;
}

const codeThenRest = new RegExp(`^([${codeDigits}][${codeLetters}]{2})(?:[\\s:,.!-]+(.*))?$`, 'su');

/** Null: it begins with no code. */
export function codeIn(text: string): Coded | null {
  const [, code, rest = ''] = codeThenRest.exec(normalise(text).toUpperCase()) ?? [];
  return code === undefined ? null : { code, rest: rest.trim().toLowerCase() };
}

/** Readings of the language that stand behind a number. */
const units = ['minutes', 'hours', 'days', 'weeks', 'seconds', 'am', 'pm', 'grams', 'kilograms'] as const;

/** True: the letters of the code are a unit of this language as well. */
export function looksLikeAmount({ code }: Coded, words: Words): boolean {
  const letters = code.slice(1).toLowerCase();
  return units.some((unit) => words.readings[unit]?.includes(letters) ?? false);
}

/** True: words to whoever has taken the alert of that baby, and no answer about its referral. */
export function isForNurse({ rest }: Pick<Coded, 'rest'>): boolean {
  return rest !== '' && referralAnswerIn(rest) === null;
}
