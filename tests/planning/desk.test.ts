// Erlang C and a simulated clock, which know nothing of each other, say the same of a desk: as many wait, and as many are taken in time.
// The seeds are fixed, so that a test that passed passes again. And nurses who are asked in turn are what they are where that is known.
// Next: erlang.test.ts.

import { describe, expect, it } from 'vitest';
import { chanceFrom } from '../../src/economy/chance.ts';
import { forgettingAlerts, simulateDesk } from '../../src/planning/desk.ts';
import { mostErlangs, probabilityOfWaiting, probabilityWithin } from '../../src/planning/erlang.ts';
import { observe, type Share } from '../../src/planning/observed.ts';
import { simulateRota } from '../../src/planning/rota-clock.ts';

const alerts = 200_000;
const desks = [
  { nurses: 1, erlangs: 0.06, limit: 0.25 },
  { nurses: 1, erlangs: 0.7, limit: 0.25 },
  { nurses: 2, erlangs: 1.2, limit: 0.25 },
  { nurses: 3, erlangs: 0.572, limit: 0.25 },
  { nurses: 8, erlangs: 6, limit: 0.5 },
  { nurses: 40, erlangs: 36, limit: 0.1 },
] as const;

/** Within so many standard errors. */
function expectNear({ share, standardError }: Share, expected: number, errors = 4): void {
  expect(standardError).toBeLessThan(0.02);
  expect(Math.abs(share - expected)).toBeLessThan(errors * standardError);
}

describe.each(desks)('$nurses nurses, $erlangs alerts in a busy time', ({ nurses, erlangs, limit }) => {
  it.each([1, 2])('wait as Erlang C has it, seed %i', (seed) => {
    const observed = simulateDesk({ nurses, erlangs, limit, alerts }, chanceFrom(seed));
    expect(observed.count).toBe(alerts);
    expectNear(observed.waited, probabilityOfWaiting(nurses, erlangs));
    expectNear(observed.within, probabilityWithin(nurses, erlangs, limit));
  });
});

it('a formula with one nurse more or fewer is not what the clock shows', () => {
  const { waited } = simulateDesk({ nurses: 8, erlangs: 6, limit: 0.5, alerts }, chanceFrom(1));
  for (const nurses of [7, 9]) expect(Math.abs(waited.share - probabilityOfWaiting(nurses, 6))).toBeGreaterThan(20 * waited.standardError);
});

it('the same seed simulates the same, another seed something else', () => {
  const run = (seed: number) => simulateDesk({ nurses: 2, erlangs: 1, limit: 0.25, alerts: 1000 }, chanceFrom(seed));
  expect(run(3)).toEqual(run(3));
  expect(run(4)).not.toEqual(run(3));
});

it('a desk with hardly more nurses than work forgets slowly', () => {
  expect(forgettingAlerts(40, 39)).toBeGreaterThan(20 * forgettingAlerts(40, 30));
});

const rota = { takenWithin: 0.25, atOnce: 1 } as const;

describe('nurses who are asked in turn', () => {
  it.each([0.06, 0.7])('are one desk when there is one of them, at %f', (erlangs) => {
    const observed = simulateRota({ nurses: 1, erlangs, limit: 0.25, alerts, ...rota }, chanceFrom(1));
    expectNear(observed.waited, probabilityOfWaiting(1, erlangs));
    expectNear(observed.within, probabilityWithin(1, erlangs, 0.25));
  });

  it('are one desk when the next is asked at once', () => {
    const observed = simulateRota({ ...rota, nurses: 3, erlangs: 1.5, limit: 0.25, alerts, takenWithin: 1e-6 }, chanceFrom(1));
    expectNear(observed.within, probabilityWithin(3, 1.5, 0.25));
  });

  it.each([3, 9])('are one desk when all of them are asked at once, %i or fewer', (atOnce) => {
    const observed = simulateRota({ ...rota, nurses: 3, erlangs: 1.5, limit: 0.25, alerts, atOnce }, chanceFrom(1));
    expectNear(observed.waited, probabilityOfWaiting(3, 1.5));
    expectNear(observed.within, probabilityWithin(3, 1.5, 0.25));
  });

  it('take more in time the more of them are asked at once', () => {
    const shares = [1, 2, 3].map(
      (atOnce) => simulateRota({ ...rota, nurses: 3, erlangs: 0.6, limit: 0.25, alerts, atOnce }, chanceFrom(1)).within.share,
    );
    expect(shares).toEqual([...shares].sort((one, other) => one - other));
    expect(new Set(shares).size).toBe(3);
  });

  it('take fewer in time than a desk where whoever is free takes the next, the more so the busier they are', () => {
    const shares = [0.3, 0.6, 1.2].map((erlangs) => {
      const { within } = simulateRota({ nurses: 3, erlangs, limit: 0.25, alerts, ...rota }, chanceFrom(1));
      expect(within.share).toBeLessThan(probabilityWithin(3, erlangs, 0.25));
      return within.share;
    });
    expect(shares).toEqual([...shares].sort((one, other) => other - one));
  });

  it('help no more within the time limit of the first when there are more of them behind her', () => {
    const few = simulateRota({ nurses: 3, erlangs: 0.6, limit: 0.25, alerts, ...rota }, chanceFrom(1));
    const many = simulateRota({ nurses: 12, erlangs: 0.6, limit: 0.25, alerts, ...rota }, chanceFrom(1));
    expect(Math.abs(few.within.share - many.within.share)).toBeLessThan(0.02);
  });

  it('take as many in time as are asked for where the first alone would, and one nurse is such a desk', () => {
    const erlangs = mostErlangs(1, 0.25, 0.95);
    const alone = simulateRota({ nurses: 1, erlangs, limit: 0.25, alerts, ...rota }, chanceFrom(1));
    expectNear(alone.within, 0.95);
    const three = simulateRota({ nurses: 3, erlangs, limit: 0.25, alerts, ...rota }, chanceFrom(1));
    expect(three.within.share).toBeGreaterThan(0.95);
  });

  it('all take each alert once in the end', () => {
    const observed = simulateRota({ nurses: 2, erlangs: 1.9, limit: Number.MAX_VALUE, alerts: 5000, ...rota }, chanceFrom(1));
    expect(observed.within.share).toBe(1);
  });
});

describe('what cannot be simulated is refused', () => {
  it.each([
    ['as much work as nurses', { nurses: 2, erlangs: 2 }],
    ['no work', { nurses: 2, erlangs: 0 }],
  ])('%s', (_, { nurses, erlangs }) => {
    expect(() => simulateDesk({ nurses, erlangs, limit: 1, alerts }, chanceFrom(1))).toThrow(/would never settle/);
    expect(() => simulateRota({ nurses, erlangs, limit: 1, alerts, ...rota }, chanceFrom(1))).toThrow(/would never settle/);
  });

  it('a handful of waits', () => {
    expect(() => observe([0, 1], 1)).toThrow(/2 waits tell nothing/);
  });
});

it('the error is that of batches: none where all are alike, large where waits come in runs', () => {
  const alike = observe(
    Array.from({ length: 100 }, () => 0),
    1,
  );
  expect(alike).toEqual({ waited: { share: 0, standardError: 0 }, within: { share: 1, standardError: 0 }, count: 100 });
  const runs = observe(
    Array.from({ length: 1000 }, (_, at) => (at < 500 ? 0 : 2)),
    1,
  );
  expect(runs.waited.share).toBe(0.5);
  expect(runs.waited.standardError).toBeCloseTo(0.0999, 2);
});
