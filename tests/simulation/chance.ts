// All chance of a simulated week, from one seed: the same seed gives the same week. Next: world.ts.

import { chanceFrom } from '../../src/economy/chance.ts';

export interface Chance {
  /** At least 0 and below 1. */
  next(): number;
  /** True so often. */
  is(share: number): boolean;
  /** A whole number from the first to the last. */
  whole(from: number, to: number): number;
  /** At least one item. */
  pick<T>(items: readonly T[]): T;
}

export function chanceOf(seed: number): Chance {
  const next = chanceFrom(seed);
  return {
    next,
    is: (share) => next() < share,
    whole: (from, to) => from + Math.floor(next() * (to - from + 1)),
    pick: (items) => {
      const item = items[Math.floor(next() * items.length)];
      if (item === undefined) throw new Error('Nothing to pick from. Give at least one item.');
      return item;
    },
  };
}
