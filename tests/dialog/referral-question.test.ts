// The digits of a referral: each means one thing, whatever was asked.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  digitOf,
  type ReferralAnswer,
  type ReferralState,
  reasonDigitOf,
  referralAnswerIn,
  referralNews,
  referralQuestion,
  refusalReasons,
} from '../../src/dialog/referral-question.ts';
import { referralAfter } from '../../src/on-call/referral.ts';

const open: readonly ReferralState[] = ['advised', 'refused', 'left', 'arrived'];

describe('the questions of a referral', () => {
  it('show digits that are read back as what was shown', () => {
    for (const state of open)
      for (const news of referralQuestion(state)?.answers ?? []) {
        expect(referralAnswerIn(digitOf(news)), `${state} ${news}`).toMatchObject({ news, reason: null });
      }
  });

  it('give every answer a digit of its own', () => {
    expect(new Set(referralNews.map(digitOf)).size).toBe(referralNews.length);
    expect(referralNews.map(digitOf).every((digit) => /^[1-9]$/.test(digit))).toBe(true);
    expect(new Set(refusalReasons.map(reasonDigitOf)).size).toBe(refusalReasons.length);
  });

  it('offer an answer that moves the referral on, and one that leaves it, from every state', () => {
    for (const state of open) {
      const answers = referralQuestion(state)?.answers ?? [];
      expect(
        answers.some((news) => referralAfter(state, news) !== state),
        state,
      ).toBe(true);
      expect(
        answers.some((news) => referralAfter(state, news) === state),
        state,
      ).toBe(true);
      expect(answers, state).toContain('died');
    }
  });

  it('are none once it is closed', () => {
    expect(referralQuestion('closed')).toBeNull();
  });
});

describe('what follows a code', () => {
  it.each<[string, ReferralAnswer | null]>([
    ['1', { news: 'left', reason: null, isSure: true }],
    ['2.', { news: 'not-left', reason: null, isSure: true }],
    ['3', { news: 'refused', reason: null, isSure: true }],
    ['31', { news: 'refused', reason: 'cost', isSure: true }],
    ['3 6', { news: 'refused', reason: 'other', isSure: true }],
    ['5', { news: 'arrived', reason: null, isSure: true }],
    ['9', { news: 'not-known', reason: null, isSure: true }],
    ['4', { news: 'died', reason: null, isSure: false }],
    ['44', { news: 'died', reason: null, isSure: true }],
    ['0', null],
    ['37', null],
    ['30', null],
    ['11', null],
    ['41', null],
    ['444', null],
    ['311', null],
    ['', null],
    ['left', null],
    ['1 baby', null],
    ['१', null],
    ['__proto__', null],
  ])('"%s" is read as it says', (text, answer) => {
    expect(referralAnswerIn(text)).toEqual(answer);
  });

  it('is never a death by one slip of the thumb', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 4 }), (text) => {
        const answer = referralAnswerIn(text);
        if (answer?.news === 'died' && answer.isSure) expect(text.replace(/[\s.,!]/g, '')).toBe('44');
      }),
    );
  });
});
