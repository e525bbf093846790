// Doses for one baby, from the protocol's tables. What is not certain is withheld with the reason, never guessed:
// no weight of today, outside the table, given already, above the ceiling, an age that the table needs and nobody knows.

import { foundIn } from './any-case.ts';
import type { DoseAmount, DoseRule } from './care-rules.ts';
import type { Facts } from './facts.ts';
import type { Judge } from './judge.ts';

export type Withheld = 'no-weight' | 'outside-table' | 'given-already' | 'over-ceiling' | 'age-not-known';

export interface Dose {
  readonly drug: string;
  /** Null when it is withheld. */
  readonly amount: number | null;
  readonly unit: string;
  /** Null unless the vial's strength is known and the amount may be drawn from it. */
  readonly millilitres: number | null;
  readonly times: string;
  readonly row: string;
  readonly withheld?: Withheld;
}

export interface PreparedDose {
  readonly rule: DoseRule;
  readonly when: Judge<Facts>;
  readonly already: Judge<Facts> | undefined;
  readonly amounts: readonly { readonly amount: DoseAmount; readonly when: Judge<Facts> }[];
}

const gramsPerKilogram = 1000;
/** Two decimals: finer than any syringe that is used for a newborn. */
const decimals = 2;

export function dosesFor(doses: readonly PreparedDose[], facts: Facts, weightGrams: number | null): Dose[] {
  return doses.filter((dose) => dose.when.holds(facts)).map((dose) => doseOf(dose, facts, weightGrams));
}

function doseOf({ rule, already, amounts }: PreparedDose, facts: Facts, weightGrams: number | null): Dose {
  const { drug, unit, times } = rule;
  const withhold = (withheld: Withheld, row: string): Dose => ({ drug, amount: null, unit, millilitres: null, times, row, withheld });
  if (already?.holds(facts)) return withhold('given-already', rule.row);
  if (rule.needsWeight && weightGrams === null) return withhold('no-weight', rule.row);
  const chosen = amounts.find(({ when }) => when.holds(facts));
  if (chosen === undefined) return withhold('outside-table', rule.row);
  const { amount, when } = chosen;
  if (when.restsOnAge(facts)) return withhold('age-not-known', amount.row);
  const kilograms = (weightGrams ?? numberOf(facts.case.birthWeightGrams)) / gramsPerKilogram;
  const exact = amountOf(amount, kilograms);
  if (Number.isNaN(exact)) return withhold('no-weight', amount.row);
  const { ceiling } = amount;
  if (ceiling !== undefined && (exact > ceiling.amount || exact > ceiling.perKg * kilograms)) return withhold('over-ceiling', amount.row);
  return { drug, amount: round(exact), unit, millilitres: millilitresOf(exact, amount, rule, facts), times, row: amount.row };
}

function amountOf({ amount, perKg, atMost }: DoseAmount, kilograms: number): number {
  const exact = amount ?? (perKg ?? Number.NaN) * kilograms;
  return atMost === undefined ? exact : Math.min(exact, atMost);
}

function millilitresOf(amount: number, { vials }: DoseAmount, { vial }: DoseRule, facts: Facts): number | null {
  const printed = vial === undefined ? undefined : foundIn(facts.case, vial);
  const perMillilitre = typeof printed === 'string' && Object.hasOwn(vials, printed) ? vials[printed] : undefined;
  return perMillilitre === undefined ? null : round(amount / perMillilitre);
}

const numberOf = (value: number | null | undefined): number => value ?? Number.NaN;

function round(value: number): number {
  return Number(value.toFixed(decimals));
}
