// What several rounds say together: their median, with the least and the greatest beside it.

export interface Spread {
  readonly median: number;
  readonly min: number;
  readonly max: number;
  readonly rounds: number;
}

export function spreadOf(values: readonly number[], digits: number): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  const rounded = (value: number | undefined): number => Number((value ?? Number.NaN).toFixed(digits));
  const middle = sorted.length / 2;
  const median =
    sorted.length % 2 === 1 ? sorted[Math.floor(middle)] : ((sorted[middle - 1] ?? Number.NaN) + (sorted[middle] ?? Number.NaN)) / 2;
  return { median: rounded(median), min: rounded(sorted[0]), max: rounded(sorted.at(-1)), rounds: sorted.length };
}
