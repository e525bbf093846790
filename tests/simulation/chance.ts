// All chance of a simulated week, from one seed: the same seed gives the same week. Next: world.ts.

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

/** The generator known as mulberry32: 32 bits of state, period 2^32, enough for a week of events. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
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
