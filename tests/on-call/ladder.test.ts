// A ladder goes by the clock: in time, late, and pushed on. Times here are minutes.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Asked, Ladder } from '../../src/on-call/follow-up.ts';
import { type Climb, climb } from '../../src/on-call/ladder.ts';

const ladder: Ladder = [
  { afterMinutes: 30, asks: ['worker'] },
  { afterMinutes: 60, asks: ['receiving', 'worker'] },
  { afterMinutes: 90, asks: ['nurse', 'coordinator'] },
];
const minute = 60_000;

function at(dueAt: number, now: number, of = ladder): Climb {
  const { next, ...rest } = climb(of, 0, dueAt * minute, now * minute, (time) => time);
  return { ...rest, next: next === null ? null : next / minute };
}

describe('a ladder', () => {
  it.each<[string, number, number, readonly Asked[], number, number | null]>([
    ['on time', 30, 30, ['worker'], 0, 60],
    ['a little late', 30, 41, ['worker'], 0, 60],
    ['on time at the second step', 60, 60, ['receiving', 'worker'], 1, 90],
    ['on time at the last step', 90, 90, ['nurse', 'coordinator'], 2, null],
    ['so late that the second step has come', 30, 61, ['worker', 'receiving'], 1, 90],
    ['so late that all have come', 30, 500, ['worker', 'receiving', 'nurse', 'coordinator'], 2, null],
    ['pushed on after a failure', 33, 34, ['worker'], 0, 60],
    ['pushed on past the next step', 65, 66, ['receiving', 'worker'], 1, 90],
    ['pushed on past the last step', 700, 700, ['nurse', 'coordinator'], 2, null],
    ['before its first step', 5, 5, [], -1, 30],
  ])('%s asks whom it should have asked by then', (_, dueAt, now, asks, step, next) => {
    expect(at(dueAt, now)).toEqual({ asks, step, next });
  });

  it('with no steps asks nobody', () => {
    expect(at(0, 10, [])).toEqual({ asks: [], step: -1, next: null });
  });

  it('takes steps that wait for the end of the night together, each person once', () => {
    const morning = 1000 * minute;
    const { asks, step, next } = climb(ladder, 0, morning, morning, () => morning);
    expect(asks).toEqual(['worker', 'receiving', 'nurse', 'coordinator']);
    expect([step, next]).toEqual([2, null]);
  });

  it('reaches everybody it names, however late each step is answered', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 4, maxLength: 4 }), (delays) => {
        const reached = new Set<Asked>();
        let dueAt: number | null = 30;
        for (const delay of delays) {
          if (dueAt === null) break;
          const { asks, next }: Climb = at(dueAt, dueAt + delay);
          for (const one of asks) reached.add(one);
          dueAt = next;
        }
        expect(dueAt).toBeNull();
        expect([...reached].sort()).toEqual(['coordinator', 'nurse', 'receiving', 'worker']);
      }),
    );
  });
});
