// What is measured on a baby, and what comes of holding it against a growth standard. Types and the change of unit only;
// nothing here knows a curve. Next: growth-tables.ts (the published tables), growth.ts (the questions they answer).

export const measures = ['weight', 'length', 'head'] as const;
export type Measure = (typeof measures)[number];

/** The standards have no curve for both sexes together: when the sex is not clear, ask for both and show both. */
export type GrowthSex = 'girl' | 'boy';

export type GrowthStandard = 'intergrowth-21st' | 'intergrowth-21st-very-preterm' | 'intergrowth-preterm-postnatal' | 'who';

/** Unrounded. Classify on these numbers, and round only to show them. */
export interface Size<Centile = number> {
  readonly kind: 'size';
  readonly z: number;
  readonly centile: Centile;
  readonly standard: GrowthStandard;
}

/** `age`: no table for this age or gestation. `value`: what was measured cannot be a size. Nothing is clamped or extrapolated. */
export interface NoReference {
  readonly kind: 'no-reference';
  readonly reason: 'age' | 'value';
}

export const noReferenceForAge: NoReference = { kind: 'no-reference', reason: 'age' };
export const noReferenceForValue: NoReference = { kind: 'no-reference', reason: 'value' };

/**
 * The value in the unit of the published tables: weight in kilograms, length and head circumference in centimetres.
 *
 * Takes    value: grams for weight, centimetres for length and head.
 * Returns  null unless it is a number above 0.
 */
export function inTableUnit(measure: Measure, value: number): number | null {
  if (!Number.isFinite(value) || value <= 0) return null;
  return measure === 'weight' ? value / 1000 : value;
}
