import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alphabetOf } from '../../src/messages/gsm7.ts';
import { fitsScreen, packSegments, paginate, screenLimit } from '../../src/messages/screens.ts';
import { measure } from '../../src/messages/segments.ts';

const pager = { more: '98 more', back: '00 back' };

const screens = (...of: Parameters<typeof paginate>): string[] => paginate(...of).map(({ text }) => text);
const texts = (...of: Parameters<typeof packSegments>): string[] => packSegments(...of).map(({ text }) => text);

describe('fitsScreen', () => {
  it.each([
    ['182 septets', 'a'.repeat(182), true],
    ['183 septets', 'a'.repeat(183), false],
    ['91 escape pairs', '€'.repeat(91), true],
    ['92 escape pairs', '€'.repeat(92), false],
    ['70 units of UCS-2', 'ሕ'.repeat(70), true],
    ['71 units of UCS-2', 'ሕ'.repeat(71), false],
  ])('answers for %s', (_name, text, fits) => {
    expect(fitsScreen(text)).toBe(fits);
  });

  it('holds to a limit of the programme', () => {
    expect(fitsScreen('ሕ'.repeat(80), { gsm7: 160, ucs2: 80 })).toBe(true);
    expect(fitsScreen('a'.repeat(161), { gsm7: 160, ucs2: 80 })).toBe(false);
  });
});

describe('paginate', () => {
  it('leaves what fits on one screen as it is, without a pager', () => {
    expect(screens(['HEAD', '0 normal'], screenLimit, pager)).toEqual(['HEAD\n0 normal']);
  });

  it('says nothing when there is nothing', () => {
    expect(screens([], screenLimit, pager)).toEqual([]);
  });

  it('fills the last screen to its edge, for it needs no word about more', () => {
    const line = 'a'.repeat(182);
    expect(screens([line], screenLimit, { more: 'x' })).toEqual([line]);
  });

  it('shows how to go on, how to go back, or both', () => {
    const lines = ['a'.repeat(150), 'b'.repeat(150), 'c'.repeat(150)];
    expect(screens(lines, screenLimit, pager)).toEqual([`${lines[0]}\n98 more`, `${lines[1]}\n98 more 00 back`, `${lines[2]}\n00 back`]);
  });

  it('breaks a line that is too long alone at a word', () => {
    const [first, second] = screens(['breast milk '.repeat(20)], screenLimit, { more: '98' });
    expect(first).toBe(`${'breast milk '.repeat(15).trimEnd()}\n98`);
    expect(second).toBe('breast milk '.repeat(5).trimEnd());
  });

  it('never breaks inside a grapheme', () => {
    const family = '👩‍👩‍👧';
    const pages = screens([family.repeat(20)], screenLimit, { more: '98' });
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) expect(page).toMatch(new RegExp(`^(${family})+(\n98)?$`));
  });

  it('cuts a letter under more marks than a screen holds, rather than go over', () => {
    const pages = screens([`e${'\u0323'.repeat(100)}`], screenLimit, { more: '98' });
    expect(pages.length).toBe(2);
    for (const page of pages) expect(fitsScreen(page)).toBe(true);
  });

  it('leaves out a pager that leaves no room for a word', () => {
    expect(screens(['abcdefgh'], { gsm7: 5, ucs2: 5 }, { more: 'more more' })).toEqual(['abcde', 'fgh']);
  });
});

describe('a page', () => {
  it('knows how many of its pieces have begun, also when the last goes on', () => {
    const begun = (...pieces: readonly string[]): number[] =>
      paginate(pieces, { gsm7: 12, ucs2: 12 }, { more: '99' }).map((page) => page.begun);
    expect(begun('abcdef', 'ghijkl')).toEqual([1, 2]);
    expect(begun('abc', 'def', 'ghijklmn')).toEqual([2, 3]);
    expect(begun('abc defg hijk lmno', 'p')).toEqual([1, 2]);
    expect(begun('a', '', 'b')).toEqual([2]);
  });
});

describe('packSegments', () => {
  it('keeps whole sentences together, and says on all but the last that there is more', () => {
    const sentences = ['a'.repeat(100), 'b'.repeat(60), 'c'.repeat(20)];
    expect(texts(sentences, 1, ' ', 'More: 1')).toEqual([`${sentences[0]} More: 1`, `${sentences[1]} ${sentences[2]}`]);
  });

  it('counts the note in', () => {
    const sentences = ['a'.repeat(155), 'b'.repeat(10)];
    const pages = texts(sentences, 1, ' ', 'More: 1');
    expect(pages[0]).toBe(`${'a'.repeat(152)} More: 1`);
    expect(pages[1]).toBe(`aaa ${sentences[1]}`);
  });

  it('uses two segments when two are allowed', () => {
    expect(texts(['a'.repeat(150), 'b'.repeat(150)], 2, ' ')).toEqual([`${'a'.repeat(150)} ${'b'.repeat(150)}`]);
  });
});

const unit = fc.constantFrom('a', 'b', ' ', 'é', '€', 'ሕ', '😀', 'e\u0301', '{');
const gsmUnit = fc.constantFrom('a', 'b', ' ', 'é', '€', '{', '~');
const lines = fc.array(fc.oneof(fc.string({ unit: gsmUnit, maxLength: 300 }), fc.string({ unit, maxLength: 200 })), { maxLength: 12 });
const bare = (text: string): string => text.replace(/\s+/gu, '');

describe('any lines', () => {
  it('make pages that fit and lose no character', () => {
    fc.assert(
      fc.property(lines, fc.integer({ min: 20, max: 182 }), fc.integer({ min: 20, max: 80 }), (pieces, gsm7, ucs2) => {
        const limit = { gsm7: Math.max(gsm7, ucs2), ucs2 };
        const pages = screens(pieces, limit, { more: '>', back: '<' });
        for (const page of pages) expect(fitsScreen(page, limit)).toBe(true);
        expect(bare(pages.join('')).replace(/[<>]/g, '')).toBe(bare(pieces.join('')));
        expect(pages.filter((page) => /\n>/.test(page)).length).toBe(Math.max(pages.length - 1, 0));
      }),
    );
  });

  it('make texts of no more segments than allowed and lose no character', () => {
    fc.assert(
      fc.property(lines, fc.integer({ min: 1, max: 3 }), (pieces, maxSegments) => {
        const pages = texts(pieces, maxSegments, ' ', '#1');
        for (const page of pages) expect(measure(page).segments).toBeLessThanOrEqual(maxSegments);
        expect(bare(pages.join('')).replaceAll('#1', '')).toBe(bare(pieces.join('')));
      }),
    );
  });

  it('keep every line whole that fits with the pager', () => {
    const short = fc.array(fc.string({ unit: fc.constantFrom('a', 'b', 'c'), minLength: 1, maxLength: 100 }), { maxLength: 10 });
    fc.assert(
      fc.property(short, (pieces) => {
        const shown = screens(pieces, screenLimit, pager).flatMap((page) => page.split('\n'));
        expect(shown.filter((line) => !/more|back/.test(line))).toEqual(pieces);
        expect(alphabetOf(shown.join('\n'))).toBe('gsm-7');
      }),
    );
  });
});
