// The lines that a bilirubin is held against, for one baby: by table, age, risk and weeks. The tables are data.

import type { BilirubinLine, BilirubinStep, BilirubinTable } from './care-rules.ts';

export interface HeldAgainst {
  readonly ageHours: number | null;
  readonly gestationWeeks: number | null;
  readonly isAtRisk: boolean;
  readonly isYellow: boolean;
}

/**
 * The line of this kind.
 *
 * Returns  umol/L; 0 where any visible yellow is over the line; null where there is no line. For an unknown age, the
 *          lowest line of any age.
 */
export function bilirubinLine(table: BilirubinTable, kind: 'treatment' | 'exchange', baby: HeldAgainst): number | null {
  const { ageHours } = baby;
  const steps = ageHours === null ? table.steps : table.steps.filter((step) => step.fromHours <= ageHours).slice(-1);
  const lines = steps.flatMap((step) => toNumber(lineOf(step, kind, baby.isAtRisk), baby.isYellow) ?? []);
  const weeks = baby.gestationWeeks;
  if (table.byWeeks !== undefined && weeks !== null && weeks < table.byWeeks.beforeWeeks) {
    lines.push(Math.floor(weeks) * table.byWeeks.perWeek - (kind === 'treatment' ? table.byWeeks.treatmentLess : 0));
  }
  return lines.length === 0 ? null : Math.min(...lines);
}

/** A table that does not tell risk apart has one line for all. */
function lineOf(step: BilirubinStep, kind: 'treatment' | 'exchange', isAtRisk: boolean): BilirubinLine | undefined {
  if (kind === 'treatment') return (isAtRisk ? step.treatmentAtRisk : undefined) ?? step.treatment;
  return (isAtRisk ? step.exchangeAtRisk : undefined) ?? step.exchange;
}

function toNumber(line: BilirubinLine | undefined, isYellow: boolean): number | null {
  if (line === 'any-yellow') return isYellow ? 0 : null;
  return line ?? null;
}
