// The last guard of the screen.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cutToScreen, toUssdBody } from '../../../src/channels/ussd/reply.ts';

const within = (limit: number) => (text: string) => text.length <= limit;

test.each([
  ['nothing', '', 5, ''],
  ['what fits', 'abcde', 5, 'abcde'],
  ['one too many', 'abcdef', 5, 'abcde'],
  ['an emoji at the edge, whole or not at all', 'abcd👶', 5, 'abcd'],
  ['a screen that holds nothing', 'abc', 0, ''],
])('%s', (_name, text, limit, shown) => {
  expect(cutToScreen(text, within(limit))).toBe(shown);
});

test('a cut text fits, begins the text, and one character more would not fit', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), fc.integer({ min: 0, max: 40 }), (text, limit) => {
      const shown = cutToScreen(text, within(limit));
      expect(text.startsWith(shown)).toBe(true);
      expect(shown.length).toBeLessThanOrEqual(limit);
      const next = [...text.slice(shown.length)][0];
      if (next !== undefined) expect((shown + next).length).toBeGreaterThan(limit);
    }),
  );
});

test('every answer begins with CON or END', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), fc.boolean(), (text, ends) => {
      expect(toUssdBody({ text, ends })).toMatch(/^(CON .|END )/s);
    }),
  );
});
