// Whom an alert goes to, as a table from -> event -> to, and that it never falls silent. Letters stand for numbers: A and B are
// nurses on call, C is the coordinator. Order and rounds: common practice, no source.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Asking, currentRound, nextAsk } from '../../src/on-call/asking.ts';

type From = { asked: string; chain: string } & Partial<Pick<Asking, 'passing' | 'hasPaused' | 'atOnce'>>;
const asking = ({ asked, chain, ...rest }: From): Asking => ({
  asked: [...asked],
  chain: [...chain],
  atOnce: 1,
  hasPaused: false,
  ...rest,
});
const said = (one: ReturnType<typeof nextAsk>): string => (one.kind === 'ask' ? one.who + one.beside.join('') : one.kind);

describe('an alert that is not taken in time', () => {
  it.each([
    ['goes to the next', { asked: 'A', chain: 'ABC' }, 'B'],
    ['goes to the coordinator after the nurses', { asked: 'AB', chain: 'ABC' }, 'C'],
    ['goes to a nurse whose shift has begun meanwhile', { asked: 'A', chain: 'DBC' }, 'D'],
    ['goes on down the chain when the one asked has left it', { asked: 'X', chain: 'ABC' }, 'A'],
    ['pauses when all were asked', { asked: 'ABC', chain: 'ABC' }, 'pause'],
    ['pauses when the only one was asked', { asked: 'A', chain: 'A' }, 'pause'],
    ['begins again after the pause', { asked: 'ABC', chain: 'ABC', hasPaused: true }, 'A'],
    ['asks somebody new after the pause rather than begin again', { asked: 'ABC', chain: 'ABDC', hasPaused: true }, 'D'],
    ['asks the only one again after the pause', { asked: 'A', chain: 'A', hasPaused: true }, 'A'],
    ['goes to the next in a later round', { asked: 'ABCA', chain: 'ABC' }, 'B'],
    ['pauses after each round', { asked: 'ABCABC', chain: 'ABC' }, 'pause'],
    ['begins a third round', { asked: 'ABCABC', chain: 'ABC', hasPaused: true }, 'A'],
  ])('%s', (_claim, from, to) => {
    expect(said(nextAsk(asking(from)))).toBe(to);
  });
});

describe('an alert that several are asked to take at once', () => {
  it.each([
    ['goes to the next so many', { asked: 'A', chain: 'ABCD', atOnce: 2 }, 'BC'],
    ['goes to as many as are left', { asked: 'AB', chain: 'ABC', atOnce: 2 }, 'C'],
    ['goes to all who were not asked', { asked: 'A', chain: 'ABC', atOnce: 9 }, 'BC'],
    ['pauses when all were asked', { asked: 'ABC', chain: 'ABC', atOnce: 2 }, 'pause'],
    ['begins again with so many after the pause', { asked: 'ABC', chain: 'ABC', atOnce: 2, hasPaused: true }, 'AB'],
    ['goes on in the later round', { asked: 'ABCAB', chain: 'ABC', atOnce: 2 }, 'C'],
    ['asks one in place of one who passes it', { asked: 'AB', chain: 'ABCD', passing: 'A', atOnce: 2 }, 'C'],
  ])('%s', (_claim, from, to) => {
    expect(said(nextAsk(asking(from)))).toBe(to);
  });
});

describe('an alert that is passed on', () => {
  it.each([
    ['goes to the next at once', { asked: 'A', chain: 'ABC', passing: 'A' }, 'B'],
    ['begins again at once when all were asked', { asked: 'ABC', chain: 'ABC', passing: 'C' }, 'A'],
    ['does not come back to the one who passes it', { asked: 'AB', chain: 'BA', passing: 'B' }, 'A'],
    ['skips one who passes it before she was asked', { asked: 'A', chain: 'ABC', passing: 'B' }, 'C'],
    ['stays where it is when there is nobody else', { asked: 'A', chain: 'A', passing: 'A' }, 'nobody-else'],
  ])('%s', (_claim, from, to) => {
    expect(said(nextAsk(asking(from)))).toBe(to);
  });
});

describe('a round', () => {
  it.each([
    ['', ''],
    ['A', 'A'],
    ['AB', 'AB'],
    ['ABA', 'A'],
    ['AAA', 'A'],
    ['ABCABD', 'ABD'],
  ])('after %j was asked is %j', (asked, round) => {
    expect(currentRound([...asked]).join('')).toBe(round);
  });
});

describe('over any chain and any times', () => {
  const chains = fc.uniqueArray(fc.constantFrom('A', 'B', 'C', 'D', 'E'), { minLength: 1 });

  const counts = fc.integer({ min: 1, max: 6 });

  it('everybody who can be asked is asked once in each round, in the order of the chain, however many at once', () => {
    fc.assert(
      fc.property(chains, fc.integer({ min: 1, max: 3 }), counts, (chain, rounds, atOnce) => {
        const asked = [chain[0] as string];
        const pauses: number[] = [];
        while (pauses.length < rounds) {
          const next = nextAsk({ asked, chain, atOnce, hasPaused: pauses.at(-1) === asked.length });
          if (next.kind === 'ask') expect(next.beside.length).toBeLessThan(atOnce);
          if (next.kind === 'ask') asked.push(next.who, ...next.beside);
          else pauses.push(asked.length);
        }
        expect(asked).toEqual(Array.from({ length: rounds }, () => chain).flat());
        expect(pauses).toEqual(Array.from({ length: rounds }, (_, at) => (at + 1) * chain.length));
      }),
    );
  });

  it('somebody of the chain as it is now is asked, or after a pause, whatever the chain was before', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('A', 'B', 'C', 'D', 'E', 'X'), { minLength: 1 }), chains, (asked, chain) => {
        const first = nextAsk({ asked, chain, atOnce: 1, hasPaused: false });
        const next = first.kind === 'pause' ? nextAsk({ asked, chain, atOnce: 1, hasPaused: true }) : first;
        expect(chain).toContain(said(next));
      }),
    );
  });

  it('nobody who passes is asked by that pass', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('A', 'B', 'C'), { minLength: 1 }), chains, (asked, chain) => {
        const passing = asked.at(-1) as string;
        expect(said(nextAsk({ asked, chain, atOnce: 1, passing, hasPaused: false }))).not.toBe(passing);
      }),
    );
  });
});
