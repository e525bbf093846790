// Where news leads a referral: every state with every piece of news.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ReferralNews, type ReferralState, referralAfter } from '../../src/on-call/referral.ts';

/** A dot: the news leaves it where it is. */
const table = `
                 advised  left     refused  arrived  closed
  left           left     .        left     .        .
  not-left       .        .        .        .        .
  refused        refused  .        .        .        .
  arrived        arrived  arrived  arrived  .        .
  not-arrived    .        .        .        .        .
  home-well      closed   closed   .        closed   .
  still-in-care  arrived  arrived  arrived  .        .
  died           closed   closed   closed   closed   .
  not-known      .        .        .        closed   .
`;
const [states = [], ...lines] = table
  .trim()
  .split('\n')
  .map((line) => line.trim().split(/\s+/));
const cases = lines.flatMap(([news = '', ...after]) =>
  after.map((to, at) => ({
    from: states[at] as ReferralState,
    news: news as ReferralNews,
    to: (to === '.' ? states[at] : to) as ReferralState,
  })),
);
const allNews = lines.map(([news]) => news as ReferralNews);
/** How far along a state is; left and refused stand side by side. */
const place: Readonly<Record<ReferralState, number>> = { advised: 0, refused: 1, left: 2, arrived: 3, closed: 4 };

describe('a referral', () => {
  it('is told in the table for all its states and all news', () => {
    expect(cases).toHaveLength(5 * 9);
    expect(new Set(states)).toEqual(new Set(Object.keys(place)));
  });

  it.each(cases)('that is $from and hears $news is $to', ({ from, news, to }) => {
    expect(referralAfter(from, news)).toBe(to);
  });

  it('never moves back, whatever is heard in whatever order', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...allNews)), (heard) => {
        let state: ReferralState = 'advised';
        for (const news of heard) {
          const next: ReferralState = referralAfter(state, news);
          expect(place[next]).toBeGreaterThanOrEqual(place[state]);
          state = next;
        }
      }),
    );
  });

  it('says the same when it hears the same again', () => {
    for (const { from, news } of cases) {
      const once = referralAfter(from, news);
      expect(referralAfter(once, news)).toBe(once);
    }
  });
});
