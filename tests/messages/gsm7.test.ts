import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alphabetOf, charactersOutside, septetsOf, toPlain } from '../../src/messages/gsm7.ts';
import { basicCharacters, extensionCharacters } from '../../src/messages/gsm7-alphabet.ts';
import { typography } from '../../src/messages/typography.ts';

const named: Record<string, string> = { SP: ' ', LF: '\n', CR: '\r', ESC: '\u001b', FF: '\f' };
const printed = readFileSync(new URL('gsm7-default-alphabet.txt', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line !== '' && !line.startsWith('# '));
const grid = printed.slice(0, 16).map((line) => line.split(/ +/).map((cell) => named[cell] ?? cell));
const extension = printed
  .slice(16)
  .map((line) => line.slice(3))
  .map((cell) => named[cell] ?? cell);

describe('the alphabet of 3GPP TS 23.038', () => {
  it('is printed with 8 columns of 16 and an extension of 10', () => {
    expect(grid.map((row) => row.length)).toEqual(Array(16).fill(8));
    expect(extension).toHaveLength(10);
  });

  it('has every printed character of the basic table at one septet, in the order of the codes', () => {
    const inOrder = [...Array(128).keys()].map((code) => grid[code % 16]?.[Math.floor(code / 16)]);
    expect(basicCharacters).toEqual(inOrder.filter((character) => character !== '\u001b'));
    for (const character of basicCharacters) expect(septetsOf(character), character).toBe(1);
  });

  it('has every printed character of the extension at two septets', () => {
    expect(extensionCharacters).toEqual(extension);
    for (const character of extension) expect(septetsOf(character), character).toBe(2);
  });

  it('has no other character of Unicode', () => {
    const known = new Set([...grid.flat(), ...extension]);
    known.delete('\u001b');
    for (let code = 0; code <= 0x10ffff; code += 1) {
      const character = String.fromCodePoint(code);
      if ((septetsOf(character) !== undefined) !== known.has(character)) expect.fail(`U+${code.toString(16)}`);
    }
  });
});

describe('charactersOutside', () => {
  it('names each character once, in the order met', () => {
    expect(charactersOutside('ê a ç ê 😀')).toEqual(['ê', 'ç', '😀']);
  });

  it.each(['`', '\t', 'ç', 'á', 'ê', '\u2019', '\u2013', '\u2026', '\u00a0', '\u001b'])('holds %j', (character) => {
    expect(charactersOutside(character)).toEqual([character]);
  });
});

describe('toPlain', () => {
  it.each([
    ['curly quotes', '\u201cmama\u2019s\u201d', '"mama\'s"'],
    ['dashes and the minus sign', '3\u20135 \u2014 \u22122', '3-5 - -2'],
    ['the ellipsis', 'wait\u2026', 'wait...'],
    ['no-break and narrow spaces', '3\u00a0100\u202fg', '3 100 g'],
    ['the backtick', '`a`', "'a'"],
    ['bullets', '\u2022 warm', '- warm'],
    ['guillemets', '\u00abtaa\u00bb', '"taa"'],
    ['carriage returns', 'a\r\nb\rc', 'a\nb\nc'],
    ['letters with loose accents', 'e\u0301te\u0301', '\u00e9t\u00e9'],
    ['the Kelvin and Ohm signs', '\u212a \u2126', 'K \u03a9'],
  ])('writes %s in plain characters', (_name, text, expected) => {
    expect(toPlain(text)).toBe(expected);
  });

  it.each([
    ['zero-width characters', 'a\u200bb\ufeffc\u2060d\u00ade', 'abcde'],
    ['control characters', 'a\u0000b\u0007c\u001bd\u0085', 'abcd\n'],
    ['lone halves of surrogate pairs', 'a\ud83db\ude00c', 'abc'],
    ['variation selectors and joiners of emoji', '\u2764\ufe0f\u200d\u{1f525}', '\u2764\u{1f525}'],
    ['marks of direction in a text from left to right', 'T\u200e 36.8\u200f', 'T 36.8'],
  ])('removes %s', (_name, text, expected) => {
    expect(toPlain(text)).toBe(expected);
  });

  it.each([
    ['accents, even those outside the alphabet', 'ç á ê ñ ü é'],
    ['letters that no plain one stands for', 'ŋ ɛ ɔ ẹ ƙ ɗ'],
    ['fractions, whose digits would run together', '2½'],
    ['line feeds', 'a\nb'],
    ['Ethiopic and Arabic', 'ሕፃን ، طفل'],
    ['joiners between letters that need them', 'می\u200cخورد ක්\u200dෂ'],
    ['marks of direction beside Arabic', 'طفل\u200f 36.8'],
    ['whole surrogate pairs', '😀'],
  ])('keeps %s', (_name, text) => {
    expect(toPlain(text)).toBe(text.normalize('NFC'));
  });

  it('replaces every typographic character by ones of the alphabet', () => {
    for (const [mark, replacement] of typography) {
      expect(alphabetOf(replacement), replacement).toBe('gsm-7');
      expect(toPlain(`a${mark}b`)).toBe(`a${replacement}b`);
    }
  });

  it('changes nothing the second time', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary' }),
        fc.string({ unit: fc.constantFrom(...typography.keys(), 'e', '\u0301', '\u200d', 'ا', '\u200f', '\ud83d') }),
        (a, b) => {
          const once = toPlain(a + b + a);
          expect(toPlain(once)).toBe(once);
        },
      ),
    );
  });
});
