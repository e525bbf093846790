// Each message fits its place: the longest that is allowed passes, and one unit more is said, with how much is too much.

import { describe, expect, it } from 'vitest';
import { checkLengths } from '../../src/authoring/checks/lengths.ts';
import { longestValues } from '../../src/authoring/checks/longest-values.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { type PlaceLine, readPlaces } from '../../src/authoring/read-places.ts';
import type { Alphabet } from '../../src/messages/gsm7.ts';
import { readMessage } from '../../src/messages/message.ts';

function lengthsOf(
  key: string,
  text: string,
  { alphabet = 'gsm-7' as Alphabet, draft = false, lines = [] as PlaceLine[] } = {},
): Diagnostic[] {
  const { message } = readMessage(text);
  if (message === null) throw new Error('The message of this test cannot be read.');
  const found: Diagnostic[] = [];
  const catalogue = { tag: 'en', name: 'English', alphabet, draft, digits: null, messages: new Map([[key, message]]) };
  checkLengths(catalogue as unknown as Parameters<typeof checkLengths>[0], lines, (diagnostic) => found.push(diagnostic));
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

  it.each([
    ['a text', '{ place: n, text: "+254700" }', 13],
    ['letters', '{ place: n, letters: 20 }', 0],
    ['what is fitted', '{ place: n, fitted: pages }', 20],
    ['the first line under which it stands', '{ place: n, under: [other.], letters: 20 }\n  - { place: n, letters: 5 }', 15],
  ])('has what stands in its places at the longest: %s', (_what, line, left) => {
    const lines = readPlaces({ name: 'places.yaml', text: `places:\n  - ${line}\n` }, (fault) => expect.unreachable(fault.what));
    for (const alphabet of ['gsm-7', 'ucs-2'] as const) {
      expect(lengthsOf('absent.x', `{n}${'x'.repeat(left)}`, { alphabet, lines })).toEqual([]);
      expect(lengthsOf('absent.x', `{n}${'x'.repeat(left + 1)}`, { alphabet, lines })).toHaveLength(1);
    }
  });

  it('has the longest message of those that can stand in it, with its own places at their longest', () => {
    const text = 'places:\n  - { place: who, message: [baby.] }\n  - { place: age, text: "72 h" }\n';
    const lines = readPlaces({ name: 'places.yaml', text }, (fault) => expect.unreachable(fault.what));
    const messages = new Map(
      Object.entries({ 'baby.girl': 'girl', 'baby.with-age': 'baby of {age}', 'x.y': '{who}!' }).map(([key, words]) => {
        const { message } = readMessage(words);
        if (message === null) throw new Error('The message of this test cannot be read.');
        return [key, message] as const;
      }),
    );
    const message = messages.get('x.y');
    expect(message && longestValues(lines, { alphabet: 'gsm-7', messages })('x.y', message)).toEqual({ who: 'baby of 72 h' });
  });
});
