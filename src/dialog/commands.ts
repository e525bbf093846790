// The few words and digit pairs that mean the same wherever they are sent. Everything else is an answer.
// No word that phone companies act on themselves is ever a command.

import type { Command, Language } from './book.ts';
import { codeIn } from './code-in.ts';
import { normalise } from './readings/tokens.ts';

/** Digits that no list uses, for phones on which typing a word is slow. */
const digitCommands: ReadonlyMap<string, Command> = new Map([
  ['00', 'back'],
  ['99', 'more'],
  ['?', 'explain'],
]);

export interface Commanded {
  readonly command: Command;
  /** What follows a command that may be followed by an answer or a code: "BABY 1 0430 39 3100", "RECHECK 7FK". */
  readonly rest: string;
}

/** Commands that an answer may follow in the same message. */
const opening: ReadonlySet<Command> = new Set(['new-baby', 'contact']);

function mayFollow(command: Command, rest: string): boolean {
  return opening.has(command) || (command === 'recheck' && codeIn(rest)?.rest === '');
}

/**
 * The command that a message is; null: an answer.
 *
 * Takes    takesNumber: whether the question that stands reads a number, so that 99 is one (an oxygen of 99, a heart rate) and no
 *          command; asked only where it matters.
 */
export function commandOf(text: string, languages: readonly Language[], takesNumber: () => boolean = () => false): Commanded | null {
  const normal = normalise(text).replace(/(?<=.)[.,!]{1,3}$/, '');
  const byDigits = digitCommands.get(/^[0o]{2}$/.test(normal) ? '00' : normal);
  if (byDigits !== undefined && !(byDigits === 'more' && takesNumber())) return { command: byDigits, rest: '' };
  for (const { keywords } of languages) {
    const whole = keywords.get(normal);
    if (whole !== undefined) return { command: whole, rest: '' };
  }
  for (const { keywords } of languages) {
    for (const [keyword, command] of keywords) {
      if (!normal.startsWith(`${keyword} `)) continue;
      const rest = normal.slice(keyword.length + 1);
      if (mayFollow(command, rest)) return { command, rest };
    }
  }
  return null;
}
