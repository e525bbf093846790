// The worked facts are those of 3GPP TS 23.040; the two counters are independent packages, used only here.
import fc from 'fast-check';
import { SegmentedMessage } from 'sms-segments-calculator';
import { split } from 'split-sms';
import { describe, expect, it } from 'vitest';
import { basicCharacters, extensionCharacters } from '../../src/messages/gsm7-alphabet.ts';
import { measure, unitsOf } from '../../src/messages/segments.ts';

const a = (count: number): string => 'a'.repeat(count);

describe('measure', () => {
  it.each([
    ['nothing at all', '', 'gsm-7', 0, 1, 160],
    ['160 septets', a(160), 'gsm-7', 160, 1, 0],
    ['161 septets', a(161), 'gsm-7', 161, 2, 145],
    ['306 septets', a(306), 'gsm-7', 306, 2, 0],
    ['307 septets', a(307), 'gsm-7', 307, 3, 152],
    ['80 escape pairs', '€'.repeat(80), 'gsm-7', 160, 1, 0],
    ['an escape pair that fits behind a border', `${a(152)}€${a(151)}`, 'gsm-7', 305, 2, 0],
    ['escape pairs that two borders push on', `${a(152)}€`.repeat(2), 'gsm-7', 308, 3, 150],
    ['70 units of UCS-2', 'ሕ'.repeat(70), 'ucs-2', 70, 1, 0],
    ['71 units of UCS-2', 'ሕ'.repeat(71), 'ucs-2', 71, 2, 63],
    ['67 emoji, whose halves stay together', '😀'.repeat(67), 'ucs-2', 134, 3, 65],
    ['one letter outside the alphabet', `${a(70)}ç`, 'ucs-2', 71, 2, 63],
    ['an accent written loose', 'e\u0301', 'ucs-2', 2, 1, 68],
  ])('counts %s', (_name, text, alphabet, units, segments, left) => {
    const measured = measure(text);
    expect(measured).toMatchObject({ alphabet, units, segments, left });
    expect(unitsOf(text)).toBe(units);
  });

  it('says what each segment holds', () => {
    expect([a(160), a(161), 'ሕ', 'ሕ'.repeat(71)].map((text) => measure(text).perSegment)).toEqual([160, 153, 70, 67]);
  });

  const character = fc.oneof(
    { weight: 20, arbitrary: fc.constantFrom(...basicCharacters) },
    { weight: 4, arbitrary: fc.constantFrom(...extensionCharacters) },
  );
  const anyCharacter = fc.oneof(character, fc.constantFrom('ሕ', 'ç', '😀', '\u0301'));
  const texts = fc.oneof(fc.string({ unit: character, maxLength: 700 }), fc.string({ unit: anyCharacter, maxLength: 400 }));

  it('agrees with two independent counters on any text', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const ours = measure(text);
        const theirs = new SegmentedMessage(text);
        expect(ours.segments).toBe(theirs.segmentsCount);
        expect(ours.alphabet).toBe(theirs.encodingName.toLowerCase());
        const others = split(text);
        expect(ours.segments).toBe(others.parts.length);
        expect(ours.left).toBe(others.remainingInPart);
      }),
      { numRuns: 500 },
    );
  });
});

describe('unitsOf', () => {
  it('counts a text in the alphabet that is named', () => {
    expect(unitsOf('€ 5', 'gsm-7')).toBe(4);
    expect(unitsOf('€ 5', 'ucs-2')).toBe(3);
    expect(unitsOf('😀', 'ucs-2')).toBe(2);
  });
});
