// A reply in words, fitted to its channel: between its pages nothing is lost and nothing is said twice, and what was just found
// is dropped before the question is.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compose, type Voice } from '../../src/conversation/compose.ts';
import type { Reply, Say } from '../../src/dialog/reply.ts';
import { fitsScreen } from '../../src/messages/screens.ts';
import { measure } from '../../src/messages/segments.ts';
import { published } from '../support/desk.ts';

const { catalogues } = await published();
const voice: Voice = { catalogues, language: 'en', screen: { gsm7: 182, ucs2: 70 } };
const text = (words: string): Say => ({ key: 'verbatim', values: { text: words } });
const none: Reply = { told: [], page: 0, ends: false };
const farthest = 40;

/** Pages from the first to the one after which nothing changes. */
function pagesOf(reply: Reply, channel: 'sms' | 'ussd', own: Voice = voice): string[] {
  const pages: string[] = [];
  for (let page = 0; page < farthest; page += 1) {
    const said = compose({ ...reply, page }, channel, own).text;
    if (said === pages.at(-1)) return pages;
    pages.push(said);
  }
  throw new Error(`A reply of ${farthest} pages does not end.`);
}

/** Words numbered apart, so that each can be looked for: `n1a n1b`. */
const numbered = (kind: string, count: number, words: number): Say[] =>
  Array.from({ length: count }, (_, at) =>
    text(`${kind}${at + 1}${Array.from({ length: words }, (_, word) => ` ${kind}${at + 1}w${word + 1}`).join('')}.`),
  );

const wordsIn = (pages: readonly string[], kind: string): string[] =>
  pages.flatMap((page) => page.match(new RegExp(`\\b${kind}\\d+(?:w\\d+)?\\b`, 'giu')) ?? []).map((word) => word.toLowerCase());
const wordsOf = (says: readonly Say[], kind: string): string[] =>
  wordsIn(
    says.map((one) => String(one.values?.text)),
    kind,
  );

describe('what a digit would answer', () => {
  const question = { title: text('Q'), options: ['0', '1', '2'].map((digit) => ({ digit, label: text('x'.repeat(20)) })), tail: [] };
  const aheadOn = (reply: Reply): boolean[] =>
    pagesOf(reply, 'ussd').map((_, page) => compose({ ...reply, page }, 'ussd', voice).shown.isQuestionAhead === true);

  it('is ahead on pages that hold neither it nor the first of its options', () => {
    const told = numbered('t', 3, 16);
    expect(aheadOn({ ...none, told, question })).toEqual([true, true, false]);
    expect(aheadOn({ ...none, told, question: { ...question, options: [] } })).toEqual([true, true, false]);
    expect(aheadOn({ ...none, question: { ...question, title: text('x'.repeat(170)) } })).toEqual([true, false]);
    expect(aheadOn({ ...none, question: { ...question, title: text('x'.repeat(190)), options: [] } })).toEqual([false, false]);
  });

  it('is not ahead where nothing is asked', () => {
    expect(new Set(aheadOn({ ...none, told: numbered('t', 5, 16) }))).toEqual(new Set([false]));
  });
});

describe('a result', () => {
  const sizes = fc.record({
    head: fc.nat(3),
    lines: fc.nat(14),
    foot: fc.nat(1),
    words: fc.nat(12),
    segments: fc.constantFrom(1 as const, 2 as const),
    told: fc.nat(1),
  });

  it.each(['sms', 'ussd'] as const)('by %s says each word once and in order, over all its pages', (channel) => {
    fc.assert(
      fc.property(sizes, ({ head, lines, foot, words, segments, told }) => {
        const result = {
          head: numbered('h', head + 1, words),
          lines: numbered('n', lines, words),
          foot: numbered('f', foot, words),
          segments,
        };
        const question = {
          title: { key: 'nothing' },
          options: [
            { digit: '1', label: { key: 'result.more' } },
            { digit: '2', label: text('q1w1') },
          ],
          tail: [],
        };
        const before = numbered('t', told, words);
        const pages = pagesOf({ ...none, told: before, result, question }, channel);
        expect(wordsIn(pages, 'n')).toEqual(wordsOf(result.lines, 'n'));
        expect(wordsIn(pages, 'h')).toEqual(wordsOf(result.head, 'h'));
        expect(wordsIn(pages, 'f')).toEqual(wordsOf(result.foot, 'f'));
        expect(wordsIn(pages, 't')).toEqual(wordsOf(before, 't'));
        for (const page of pages) {
          if (channel === 'sms') expect(measure(page).segments).toBeLessThanOrEqual(segments);
          if (channel === 'ussd') expect(fitsScreen(page, voice.screen)).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('says on every page but the last how to read on', () => {
    const result = { head: numbered('h', 1, 2), lines: numbered('n', 12, 8), foot: [], segments: 1 as const };
    const question = { title: { key: 'nothing' }, options: [{ digit: '1', label: { key: 'result.more' } }], tail: [] };
    for (const channel of ['sms', 'ussd'] as const) {
      const pages = pagesOf({ ...none, result, question, ends: true }, channel);
      expect(pages.length).toBeGreaterThan(2);
      expect(pages.slice(0, -1).every((page) => page.includes('1 more'))).toBe(true);
      expect(pages.at(-1)).not.toContain('1 more');
    }
  });

  it('ends a call on its last page, and only when nothing can be chosen', () => {
    const result = { head: numbered('h', 1, 2), lines: numbered('n', 12, 8), foot: [], segments: 1 as const };
    const more = { digit: '1', label: { key: 'result.more' } };
    const endsAt = (options: readonly { digit: string; label: Say }[]): boolean[] => {
      const reply: Reply = { ...none, result, question: { title: { key: 'nothing' }, options, tail: [] }, ends: true };
      return pagesOf(reply, 'ussd').map((_, page) => compose({ ...reply, page }, 'ussd', voice).ends);
    };
    const plain = endsAt([more]);
    expect(plain.at(-1)).toBe(true);
    expect(plain.slice(0, -1)).not.toContain(true);
    expect(endsAt([more, { digit: '2', label: { key: 'result.ask-missing' } }])).not.toContain(true);
  });
});

describe('a question', () => {
  const question = {
    title: text('Q1.'),
    options: Array.from({ length: 9 }, (_, at) => ({ digit: String(at + 1), label: text(`o${at + 1}`) })),
    tail: [],
  };

  it('by SMS stands whole in one text whatever was told before it, and what does not fit is dropped from the end', () => {
    fc.assert(
      fc.property(fc.nat(12), fc.nat(20), (count, words) => {
        const told = numbered('t', count, words);
        const [page = '', ...others] = pagesOf({ ...none, told, question }, 'sms');
        expect(others).toEqual([]);
        expect(wordsIn([page], 'o')).toEqual(
          wordsOf(
            question.options.map((one) => one.label),
            'o',
          ),
        );
        expect(measure(page).segments).toBeLessThanOrEqual(2);
        const kept = wordsIn([page], 't');
        expect(kept).toEqual(wordsOf(told, 't').slice(0, kept.length));
      }),
      { numRuns: 150 },
    );
  });

  it('by SMS stands without a mere reassurance where that would cost one more segment, and with it where it would not', () => {
    const told = [{ key: 'told.all-normal' }];
    const short = compose({ ...none, told, question }, 'sms', voice).text;
    expect(short).toMatch(/^Good, all normal\. Q1/);
    const long = { ...question, tail: [text('x'.repeat(160 - compose({ ...none, question }, 'sms', voice).text.length - 1))] };
    expect(compose({ ...none, told, question: long }, 'sms', voice).text).toMatch(/^Q1/);
  });

  it('by SMS keeps as much of what was told as two texts hold', () => {
    const told = numbered('t', 12, 6);
    const reply: Reply = { ...none, told, question };
    const said = compose(reply, 'sms', voice).text;
    const kept = told.filter((one) => said.includes(String(one.values?.text).replace(/^t/, 'T'))).length;
    const oneMore = [...told.slice(0, kept + 1).map((one) => String(one.values?.text)), said.slice(said.indexOf('Q1.'))].join(' ');
    expect(kept).toBeGreaterThan(0);
    expect(measure(oneMore).segments).toBeGreaterThan(2);
  });

  it('by SMS that fills two texts by itself goes on on a second page rather than in a third text', () => {
    const long = {
      ...question,
      options: question.options.map((one) => ({ ...one, label: text(`${'y'.repeat(24)} ${String(one.label.values?.text)}`) })),
    };
    expect(measure(compose({ ...none, question: long }, 'sms', voice).text).segments).toBe(2);
    const told = [text(`t1 ${'x'.repeat(60)}`)];
    const pages = pagesOf({ ...none, told, question: long }, 'sms');
    expect(pages.length).toBe(2);
    for (const page of pages) expect(measure(page).segments, page).toBeLessThanOrEqual(2);
    expect(wordsIn(pages, 't')).toEqual(['t1']);
    expect(wordsIn(pages, 'o')).toEqual(wordsIn([compose({ ...none, question: long }, 'sms', voice).text], 'o'));
  });

  it('by USSD says each word once and in order, over all its screens', () => {
    fc.assert(
      fc.property(fc.nat(8), fc.nat(20), fc.constantFrom(182, 160), (count, words, gsm7) => {
        const told = numbered('t', count, words);
        const own = { ...voice, screen: { gsm7, ucs2: 70 } };
        const pages = pagesOf({ ...none, told, question }, 'ussd', own);
        expect(wordsIn(pages, 't')).toEqual(wordsOf(told, 't'));
        expect(wordsIn(pages, 'o')).toEqual(
          wordsOf(
            question.options.map((one) => one.label),
            'o',
          ),
        );
        for (const page of pages) expect(fitsScreen(page, own.screen)).toBe(true);
      }),
      { numRuns: 150 },
    );
  });

  it('shows its digits in the digits of the language', () => {
    for (const language of catalogues.byTag.keys()) {
      const said = compose({ ...none, question }, 'sms', { ...voice, language }).text;
      expect(said.match(/\p{Nd}(?= o\d)/gu)).toHaveLength(9);
    }
  });
});
