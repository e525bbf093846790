// Erlang's formulas against printed tables, worked examples, closed forms, exact arithmetic, and the laws that must hold.
// Next: erlang-published.yaml, desk.test.ts (the simulated clock).

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { fewestServers, mostErlangs, probabilityOfBlocking, probabilityOfWaiting, probabilityWithin } from '../../src/planning/erlang.ts';

interface Published {
  readonly 'offered-load': {
    readonly 'blocking-percent': readonly number[];
    readonly rows: readonly { readonly channels: number; readonly loads: readonly number[] }[];
  };
  readonly 'offered-load-exactly': readonly { readonly channels: number; readonly 'blocking-percent': number; readonly load: number }[];
  readonly waiting: readonly {
    readonly channels: number;
    readonly load: number;
    readonly 'waiting-percent'?: number;
    readonly 'longer-than-service'?: number;
  }[];
  readonly queue: readonly {
    readonly servers: number;
    readonly 'a-year': number;
    readonly 'served-a-year': number;
    readonly 'mean-queue': number;
    readonly 'mean-wait-years': number;
  }[];
  readonly staffing: readonly {
    readonly load: number;
    readonly 'limit-seconds': number;
    readonly 'service-seconds': number;
    readonly level: number;
    readonly servers: number;
    readonly waiting: number;
    readonly within: number;
  }[];
  readonly large: readonly { readonly formula: 'B' | 'C'; readonly servers: number; readonly load: number; readonly log: number }[];
}

const published = parse(readFileSync(new URL('erlang-published.yaml', import.meta.url), 'utf8')) as Published;

/** The load at which a formula that grows with it comes to a probability. */
function loadAt(probability: number, servers: number, formula: (servers: number, load: number) => number): number {
  let [low, high] = [0, formula === probabilityOfWaiting ? servers : 10 * servers];
  for (let halving = 0; halving < 100; halving += 1) {
    const middle = (low + high) / 2;
    if (formula(servers, middle) < probability) low = middle;
    else high = middle;
  }
  return low;
}

/** The defining sums, in whole numbers of 80 digits after the point: B from the top down, C from its own sum and not from B. */
function exactly(servers: number, load: number, formula: 'B' | 'C'): number {
  const one = 10n ** 80n;
  const thousandths = BigInt(Math.round(load * 1000));
  let term = one;
  let below = 0n;
  for (let k = servers; k > 0; k -= 1) {
    term = (term * BigInt(k) * 1000n) / thousandths;
    below += term;
  }
  if (formula === 'B') return Number((one * one) / (below + one)) / 1e80;
  const top = (one * BigInt(servers) * 1000n) / (BigInt(servers) * 1000n - thousandths);
  return Number((top * one) / (below + top)) / 1e80;
}

describe('published values', () => {
  const { rows, 'blocking-percent': percents } = published['offered-load'];
  it.each(rows)('the loads that $channels channels carry are as printed', ({ channels, loads }) => {
    expect(loads).toHaveLength(percents.length);
    expect(percents.map((percent) => Number(loadAt(percent / 100, channels, probabilityOfBlocking).toFixed(1)))).toEqual(loads);
  });

  it.each(published['offered-load-exactly'])('$channels channels carry $load at $blocking-percent % of blocking', (row) => {
    expect(loadAt(row['blocking-percent'] / 100, row.channels, probabilityOfBlocking)).toBeCloseTo(row.load, 3);
  });

  it.each(published.waiting)('$channels channels with $load: who waits, and how long, is as printed', (row) => {
    const percent = row['waiting-percent'];
    if (percent !== undefined) expect(loadAt(percent / 100, row.channels, probabilityOfWaiting)).toBeCloseTo(row.load, 1);
    if (percent !== undefined) expect(100 * probabilityOfWaiting(row.channels, row.load)).toBeCloseTo(percent, 1);
    const longer = row['longer-than-service'];
    const ofThoseWhoWait = (1 - probabilityWithin(row.channels, row.load, 1)) / probabilityOfWaiting(row.channels, row.load);
    if (longer !== undefined) expect(Math.abs(ofThoseWhoWait - longer)).toBeLessThan(longer > 0.01 ? 0.0005 : 0.00005);
  });

  it.each(published.queue)('a queue of $servers servers is as long as printed', (row) => {
    const load = row['a-year'] / row['served-a-year'];
    const queue = (probabilityOfWaiting(row.servers, load) * load) / (row.servers - load);
    expect(Math.abs(queue - row['mean-queue'])).toBeLessThan(0.0005);
    expect(Math.abs(queue / row['a-year'] - row['mean-wait-years'])).toBeLessThan(0.0000005);
  });

  it.each(published.staffing)('$load erlangs need $servers servers', (row) => {
    const limit = row['limit-seconds'] / row['service-seconds'];
    expect(fewestServers(row.load, limit, row.level)).toBe(row.servers);
    expect(probabilityOfWaiting(row.servers, row.load)).toBeCloseTo(row.waiting, 12);
    expect(probabilityWithin(row.servers, row.load, limit)).toBeCloseTo(row.within, 12);
  });

  it.each(published.large)('$formula of $servers servers and $load is as printed', ({ formula, servers, load, log }) => {
    const computed = formula === 'B' ? probabilityOfBlocking(servers, load) : probabilityOfWaiting(servers, load);
    expect(Math.log(computed)).toBeCloseTo(log, 8);
  });
});

describe('closed forms and exact arithmetic', () => {
  it.each([0, 0.001, 0.5, 1, 40])('one server blocks a / (1 + a) of %f erlangs', (load) => {
    expect(probabilityOfBlocking(1, load)).toBeCloseTo(load / (1 + load), 14);
  });

  it.each([0, 0.25, 0.5, 0.999])('one server lets as many wait as it is busy, %f', (load) => {
    expect(probabilityOfWaiting(1, load)).toBeCloseTo(load, 14);
    expect(probabilityWithin(1, load, 2)).toBeCloseTo(1 - load * Math.exp(-(1 - load) * 2), 14);
  });

  it('two servers with one erlang let a third wait', () => {
    expect(probabilityOfWaiting(2, 1)).toBeCloseTo(1 / 3, 14);
  });

  it.each([
    [3, 0.572],
    [55, 48],
    [300, 290.5],
    [2000, 1990.25],
    [11_456, 11_444],
  ])('%i servers and %f erlangs are as the defining sums have it', (servers, load) => {
    expect(probabilityOfBlocking(servers, load)).toBeCloseTo(exactly(servers, load, 'B'), 12);
    expect(probabilityOfWaiting(servers, load)).toBeCloseTo(exactly(servers, load, 'C'), 12);
  });
});

describe('laws', () => {
  const servers = fc.integer({ min: 1, max: 400 });
  const load = fc.double({ min: 0, max: 500, noNaN: true });
  const limit = fc.double({ min: 0, max: 10, noNaN: true });
  const level = fc.double({ min: 0, max: 0.9999, noNaN: true });

  it('a probability lies between 0 and 1, and who waits is no rarer than who would be lost', () => {
    fc.assert(
      fc.property(servers, load, limit, (c, a, t) => {
        const all = [probabilityOfBlocking(c, a), probabilityOfWaiting(c, a), probabilityWithin(c, a, t)];
        expect(all.every((one) => one >= 0 && one <= 1)).toBe(true);
        expect(probabilityOfWaiting(c, a)).toBeGreaterThanOrEqual(probabilityOfBlocking(c, a));
      }),
    );
  });

  it('more work, fewer servers or less patience make it no better', () => {
    const slack = 1e-12;
    fc.assert(
      fc.property(servers, load, limit, fc.double({ min: 0, max: 50, noNaN: true }), (c, a, t, more) => {
        const within = probabilityWithin(c, a, t);
        expect(probabilityWithin(c, a + more, t)).toBeLessThanOrEqual(within + slack);
        expect(probabilityWithin(c + 1, a, t)).toBeGreaterThanOrEqual(within - slack);
        expect(probabilityWithin(c, a, t + more)).toBeGreaterThanOrEqual(within - slack);
        expect(probabilityOfBlocking(c + 1, a)).toBeLessThanOrEqual(probabilityOfBlocking(c, a) + slack);
      }),
    );
  });

  it('the fewest servers are enough, and one fewer is not', () => {
    fc.assert(
      fc.property(load, limit, level, (a, t, share) => {
        const fewest = fewestServers(a, t, share);
        expect(probabilityWithin(fewest, a, t)).toBeGreaterThanOrEqual(share);
        const oneFewer = fewest > 1 && fewest - 1 > a ? probabilityWithin(fewest - 1, a, t) : -1;
        expect(oneFewer).toBeLessThan(share);
      }),
    );
  });

  it('the most work is done in time, and hardly more is not', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), limit, fc.double({ min: 0.5, max: 0.9999, noNaN: true }), (c, t, share) => {
        const most = mostErlangs(c, t, share);
        expect(probabilityWithin(c, most, t)).toBeGreaterThanOrEqual(share);
        expect(probabilityWithin(c, most + 1e-9, t)).toBeLessThan(share + 1e-7);
        expect(fewestServers(most, t, share)).toBeLessThanOrEqual(c);
      }),
    );
  });

  it('one desk for all needs no more servers than two that share the work', () => {
    fc.assert(
      fc.property(load, limit, fc.double({ min: 0.5, max: 0.9999, noNaN: true }), (a, t, share) => {
        expect(fewestServers(a, t, share)).toBeLessThanOrEqual(2 * fewestServers(a / 2, t, share));
      }),
    );
  });
});

describe('edges', () => {
  it('no servers lose and keep waiting all; as much work as servers is never done in time', () => {
    expect([probabilityOfBlocking(0, 3), probabilityOfWaiting(0, 3), probabilityWithin(0, 3, 1)]).toEqual([1, 1, 0]);
    expect([probabilityOfWaiting(3, 3), probabilityWithin(3, 3, 1)]).toEqual([1, 0]);
  });

  it('where nothing comes one server is there all the same', () => {
    expect([fewestServers(0, 0, 0.95), probabilityWithin(1, 0, 0)]).toEqual([1, 1]);
  });

  it.each([
    ['half a server', () => probabilityOfBlocking(1.5, 1)],
    ['fewer than no servers', () => probabilityOfWaiting(-1, 1)],
    ['a load that is no number', () => probabilityOfBlocking(1, Number.NaN)],
    ['a load without end', () => fewestServers(Number.POSITIVE_INFINITY, 1, 0.95)],
    ['a load below nothing', () => probabilityWithin(1, -1, 1)],
    ['a time below nothing', () => probabilityWithin(1, 0.5, -1)],
    ['a level that no number of servers reaches', () => fewestServers(1, 1, 1)],
    ['no servers at all', () => mostErlangs(0, 1, 0.95)],
    ['a level that is no number', () => fewestServers(1, 1, Number.NaN)],
  ])('%s is refused', (_, compute) => {
    expect(compute).toThrow(RangeError);
  });
});
