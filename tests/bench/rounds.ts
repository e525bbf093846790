// Two things measured in rounds that alternate, so that neither always has the machine as the other left it. Next: spread.ts.

import type { Measured } from './load.ts';

/** Measures both in every round; `first` comes first in every other one. */
export async function alternating<First, Second>(
  rounds: number,
  first: (round: number) => Promise<First>,
  second: (round: number) => Promise<Second>,
): Promise<{ readonly first: First; readonly second: Second }[]> {
  const pairs: { first: First; second: Second }[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const early = round % 2 === 0 ? { first: await first(round) } : null;
    const later = await second(round);
    pairs.push({ first: early === null ? await first(round) : early.first, second: later });
  }
  return pairs;
}

/** Turns a second. */
export const rate = ({ turns, seconds }: Measured): number => turns / seconds;
