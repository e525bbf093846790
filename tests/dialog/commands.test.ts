import { describe, expect, it } from 'vitest';
import type { Command, Language } from '../../src/dialog/book.ts';
import { commandOf } from '../../src/dialog/commands.ts';
import { book, words } from './first-day.ts';

const english = book.languages;
const other: Language = {
  tag: 'xx',
  name: 'Other',
  words,
  keywords: new Map<string, Command>([
    ['mtoto mpya', 'new-baby'],
    ['rudi', 'back'],
  ]),
};

describe('a command', () => {
  it.each([
    ['BABY', 'new-baby', ''],
    ['baby.', 'new-baby', ''],
    ['  Baby  ', 'new-baby', ''],
    ['BABY 1 0430 39 3100', 'new-baby', '1 0430 39 3100'],
    ['New girl 0430', 'new-baby', 'girl 0430'],
    ['00', 'back', ''],
    ['OO', 'back', ''],
    ['००', 'back', ''],
    ['99', 'more', ''],
    ['?', 'explain', ''],
    ['؟', 'explain', ''],
    ['GO ON', 'go-on', ''],
    ['go  on!', 'go-on', ''],
    ['MENU', 'menu', ''],
  ])('%j is %s, followed by %j', (text, command, rest) => {
    expect(commandOf(text, english)).toEqual({ command, rest });
  });

  it.each([
    '0',
    '9',
    '000',
    '0 0 1',
    '36.8 44 132',
    'menu please',
    'babys',
    '',
    '\u0000',
    '__proto__',
    'constructor',
    '?!?',
    'x'.repeat(10_000),
  ])('is not %j', (text) => {
    expect(commandOf(text, english)).toBeNull();
  });

  it('of several words may be followed by an answer, in any language that is understood', () => {
    expect(commandOf('Mtoto mpya 1 0430', [other, ...english])).toEqual({ command: 'new-baby', rest: '1 0430' });
    expect(commandOf('BABY', [other, ...english])).toEqual({ command: 'new-baby', rest: '' });
    expect(commandOf('rudi 3', [other])).toBeNull();
  });

  it('is not 99 where a number is asked: an oxygen of 99 is an answer', () => {
    expect(commandOf('99', english, () => true)).toBeNull();
    expect(commandOf('00', english, () => true)).toEqual({ command: 'back', rest: '' });
  });

  // Words that phone companies act on themselves; common practice of gateways for long numbers.
  it.each(['STOP', 'STOPALL', 'UNSUBSCRIBE', 'CANCEL', 'END', 'QUIT', 'REVOKE', 'OPTOUT', 'START', 'YES', 'UNSTOP', 'HELP', 'INFO'])(
    'is never %s',
    (word) => {
      expect(commandOf(word, english)).toBeNull();
    },
  );
});
