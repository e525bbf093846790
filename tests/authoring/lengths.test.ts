// Each message fits its place: the longest that is allowed passes, and one unit more is said, with how much is too much.

import { describe, expect, it } from 'vitest';
import { checkLengths } from '../../src/authoring/checks/lengths.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import type { Alphabet } from '../../src/messages/gsm7.ts';
import { readMessage } from '../../src/messages/message.ts';

function lengthsOf(key: string, text: string, { alphabet = 'gsm-7' as Alphabet, draft = false } = {}): Diagnostic[] {
  const { message } = readMessage(text);
  if (message === null) throw new Error('The message of this test cannot be read.');
  const found: Diagnostic[] = [];
  const catalogue = { tag: 'en', name: 'English', alphabet, draft, digits: null, messages: new Map([[key, message]]) };
  checkLengths(catalogue as unknown as Parameters<typeof checkLengths>[0], (diagnostic) => found.push(diagnostic));
  return found;
}

describe('a message', () => {
  it.each([
    ['explain.breathing', 'gsm-7', 306],
    ['advice.keep-warm', 'gsm-7', 153],
    ['advice.keep-warm', 'ucs-2', 201],
    ['marks.head.moulding', 'gsm-7', 70],
    ['classifications.jaundice', 'ucs-2', 40],
    ['followed.away', 'gsm-7', 160],
    ['caution', 'ucs-2', 201],
  ] as const)('%s in %s has room for %i units, and for no more', (key, alphabet, most) => {
    expect(lengthsOf(key, 'x'.repeat(most), { alphabet })).toEqual([]);
    expect(lengthsOf(key, 'x'.repeat(most + 1), { alphabet })).toMatchObject([
      { code: 'wording/too-long', severity: 'error', file: 'locales/en', fix: 'Shorten it by 1.' },
    ]);
  });

  it('counts as its longest form, and as two units what takes two', () => {
    expect(lengthsOf('absent.x', `{n, plural, one {a} other {${'b'.repeat(21)}}}`)).toHaveLength(1);
    expect(lengthsOf('absent.x', '€'.repeat(10))).toEqual([]);
    expect(lengthsOf('absent.x', '€'.repeat(11))).toHaveLength(1);
  });

  it('of a draft is warned of', () => {
    expect(lengthsOf('absent.x', 'x'.repeat(21), { draft: true })).toMatchObject([{ severity: 'warning' }]);
  });
});
