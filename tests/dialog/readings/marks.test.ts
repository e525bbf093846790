import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readChoice, readMarks } from '../../../src/dialog/readings/marks.ts';
import { tokens } from '../../../src/dialog/readings/tokens.ts';
import { words } from '../first-day.ts';

const offered = ['1', '2', '3', '4', '5', '6', '9'];
const marks = (text: string): unknown => {
  const read = readMarks(tokens(text, words), offered, words);
  return read.kind === 'refused' ? read.reason.code : read.kind === 'read' ? read.value.join('') : read.kind;
};

describe('marks of a region', () => {
  it.each(['13', '1 3', '1,3', '1.3', '1*3', '1&3', '1+3', '1/3', '31', '013', '0 1 3', 'l3', 'I 3', '१३', '1️⃣3️⃣', ' 1 , 3. '])(
    '%j are 1 and 3',
    (text) => {
      expect(marks(text)).toBe('13');
    },
  );

  it.each(['0', 'O', 'normal', 'OK', '0 ok', '00 0', '٠'])('%j are none', (text) => {
    expect(marks(text)).toBe('');
  });

  it('05 is 5, none of the others', () => {
    expect(marks('05')).toBe('5');
  });

  it.each([
    ['10', 'zero-and-more'],
    ['lO', 'zero-and-more'],
    ['1 0', 'zero-and-more'],
    ['113', 'marks'],
    ['1 1', 'marks'],
    ['0 5 0', 'zero-and-more'],
    ['7', 'no-such-digit'],
    ['178', 'no-such-digit'],
    ['1 and 3', 'marks'],
    ['1 not 3', 'marks'],
    ['1-3', 'marks'],
    ['-1', 'marks'],
    ['normal 3', 'marks'],
    ['no', 'marks'],
    ['yes', 'marks'],
    ['👍', 'marks'],
    ['__proto__', 'marks'],
    ['', 'nothing'],
  ])('%j are refused: %s', (text, reason) => {
    expect(marks(text)).toBe(reason);
  });

  it.each(['-', 'not known', 'nk'])('%j says that nobody looked', (text) => {
    expect(marks(text)).toBe('not-known');
  });

  it('are read back from every way of writing them', () => {
    const written = fc.constantFrom('', ' ', ',', ', ', '.', '*', '&', ' + ', '/', ';');
    fc.assert(
      fc.property(
        fc.subarray(offered, { minLength: 1 }),
        written,
        fc.boolean(),
        fc.constantFrom('0', '०', '٠', '０'),
        (chosen, between, withZero, zero) => {
          const inScript = (digit: string): string => String.fromCodePoint(Number(digit) + (zero.codePointAt(0) ?? 0));
          const text = [...(withZero ? ['0'] : []), ...chosen].map(inScript).join(between);
          expect(marks(text)).toBe(chosen.join(''));
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('a choice', () => {
  const options = ['girl', 'boy', 'not-clear'];
  const choice = (text: string): unknown => {
    const read = readChoice(tokens(text, words), options, words);
    return read.kind === 'refused' ? read.reason.code : read.kind === 'read' ? read.value : read.kind;
  };

  it.each([
    ['1', 'girl'],
    ['l', 'girl'],
    ['2', 'boy'],
    ['٣', 'not-clear'],
    ['Girl', 'girl'],
    ['MALE', 'boy'],
    ['not clear', 'not-clear'],
    ['-', 'not-known'],
    ['0', 'choice'],
    ['4', 'choice'],
    ['12', 'choice'],
    ['constructor', 'choice'],
  ])('%j is %s', (text, chosen) => {
    expect(choice(text)).toBe(chosen);
  });

  it('takes a word for "not known" as an option where there is one', () => {
    expect(readChoice(['-'], ['positive', 'not-known'], words)).toEqual({ kind: 'read', value: 'not-known', used: 1 });
  });
});
