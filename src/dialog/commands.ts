// The few words and digit pairs that mean the same wherever they are sent. Everything else is an answer.
// No word that phone companies act on themselves is ever a command.

import type { Command, Language } from './book.ts';
import { normalise } from './readings/tokens.ts';

/** Digits that no question uses, for phones on which typing a word is slow. */
const digitCommands: ReadonlyMap<string, Command> = new Map([
  ['00', 'back'],
  ['99', 'more'],
  ['?', 'explain'],
]);

export interface Commanded {
  readonly command: Command;
  /** What follows a command that may be followed by an answer: "BABY 1 0430 39 3100". */
  readonly rest: string;
}

/** Commands that an answer may follow in the same message. */
const opening: ReadonlySet<Command> = new Set(['new-baby']);

export function commandOf(text: string, languages: readonly Language[]): Commanded | null {
  const normal = normalise(text);
  const byDigits = digitCommands.get(normal);
  if (byDigits !== undefined) return { command: byDigits, rest: '' };
  for (const { keywords } of languages) {
    const whole = keywords.get(normal);
    if (whole !== undefined) return { command: whole, rest: '' };
  }
  const [first = '', ...others] = normal.split(' ');
  for (const { keywords } of languages) {
    const command = keywords.get(first);
    if (command !== undefined && opening.has(command)) return { command, rest: others.join(' ') };
  }
  return null;
}
