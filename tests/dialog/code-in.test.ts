import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { codeIn, isForNurse, looksLikeAmount } from '../../src/dialog/code-in.ts';
import { codeOf } from '../../src/dialog/examination.ts';
import { words } from './first-day.ts';

describe('the code of a baby', () => {
  it.each([
    ['7FK', { code: '7FK', rest: '' }],
    [' 7fk. ', { code: '7FK', rest: '' }],
    ['7fk 1', { code: '7FK', rest: '1' }],
    ['7FK: feeds well, warm', { code: '7FK', rest: 'feeds well, warm' }],
    ['७FK', { code: '7FK', rest: '' }],
    ['5HR', { code: '5HR', rest: '' }],
  ])('%j begins with %j', (text, coded) => {
    expect(codeIn(text)).toEqual(coded);
  });

  it.each(['7', '7F', '7FKX', '77FK', '0FK', '1FK', '7OK', '7 FK', 'FK7', '', '36.8 44 132', '7FK1', '5h', '__proto__', '👶'])(
    '%j has none',
    (text) => {
      expect(codeIn(text)).toBeNull();
    },
  );

  it('is found whatever baby it is of', () => {
    fc.assert(
      fc.property(fc.string(), (id) => {
        expect(codeIn(codeOf(id))).toEqual({ code: codeOf(id), rest: '' });
      }),
    );
  });

  it.each([
    ['5HR', true],
    ['4AM', true],
    ['3WK', true],
    ['7FK', false],
  ])('%s is an amount as well: %s', (code, isAmount) => {
    expect(looksLikeAmount({ code, rest: '' }, words)).toBe(isAmount);
  });

  it.each([
    ['', false],
    ['1', false],
    ['31', false],
    ['44', false],
    ['0', true],
    ['1 2 3', true],
    ['she is worse', true],
  ])('followed by %j is for the nurse: %s', (rest, isFor) => {
    expect(isForNurse({ rest })).toBe(isFor);
  });
});
