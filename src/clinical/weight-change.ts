// How a baby's weight has changed: since birth, and between two contacts. Arithmetic only; the limits that it is held
// against are data (flows/protocol). Compare before rounding.

/**
 * The change since birth as a percentage of birth weight; negative is a loss.
 *
 * Takes    both in grams.
 * Returns  unrounded; null unless both are numbers above 0.
 */
export function weightChangePercent(birthWeightGrams: number, weightGrams: number): number | null {
  if (!isWeight(birthWeightGrams) || !isWeight(weightGrams)) return null;
  return (100 * (weightGrams - birthWeightGrams)) / birthWeightGrams;
}

export interface WeightGain {
  readonly grams: number;
  readonly gramsPerKg: number;
}

/**
 * The gain a day between two weighings; negative is a loss. Per kilogram means per kilogram of the mean of both weights.
 *
 * Takes    weights in grams. days: > 0, need not be whole.
 * Returns  unrounded; null when a weight or the days are not numbers above 0.
 * Source   The mean weight as divisor: Pocket book of hospital care for children, WHO, 2nd ed. 2013, chapter 7, box on
 *          calculating weight gain (from memory).
 */
export function weightGainPerDay(weighed: {
  readonly previousWeightGrams: number;
  readonly weightGrams: number;
  readonly days: number;
}): WeightGain | null {
  const { previousWeightGrams, weightGrams, days } = weighed;
  if (!isWeight(previousWeightGrams) || !isWeight(weightGrams) || !(days > 0 && Number.isFinite(days))) return null;
  const grams = (weightGrams - previousWeightGrams) / days;
  const meanKilograms = (weightGrams + previousWeightGrams) / 2 / 1000;
  return { grams, gramsPerKg: grams / meanKilograms };
}

function isWeight(grams: number): boolean {
  return Number.isFinite(grams) && grams > 0;
}
