// What one message gave, as readers hand it over. Only types and how two such are put together. Next: read-answer.ts.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Refusal } from './readings/words.ts';

/** Answers to store, values to ask back about, and what could not be read. */
export interface Taken {
  readonly values: Readonly<Record<string, FindingValue>>;
  /** Mark ids; undefined when the step takes no marks or none were read. */
  readonly marks?: readonly string[];
  /** The region was not looked at, and the worker says so: it stays unknown. */
  readonly passed?: true;
  readonly doubts: Readonly<Record<string, FindingValue>>;
  readonly refusals: readonly Refusal[];
}

/** The taken with these of its values asked back and not stored. */
export function doubting(taken: Taken, names: readonly string[]): Taken {
  if (names.length === 0) return taken;
  const part = (isDoubted: boolean) => Object.fromEntries(Object.entries(taken.values).filter(([of]) => names.includes(of) === isDoubted));
  return { ...taken, values: part(false), doubts: { ...taken.doubts, ...part(true) } };
}

export const nothingTaken: Taken = { values: {}, doubts: {}, refusals: [] };

export function bothTaken(one: Taken, two: Taken): Taken {
  return {
    ...one,
    ...two,
    values: { ...one.values, ...two.values },
    doubts: { ...one.doubts, ...two.doubts },
    refusals: [...one.refusals, ...two.refusals],
  };
}
