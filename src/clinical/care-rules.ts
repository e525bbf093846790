// The rules for what is given and when the baby is seen again: doses, feed volumes, contacts, and the lines for bilirubin.
// Only types; the values live in flows/protocol. Next: doses.ts, feeds.ts, contacts.ts, bilirubin.ts.

import type { Condition } from './condition.ts';

/** Where a bilirubin is held against: umol/L, or treated at any visible yellow. */
export type BilirubinLine = number | 'any-yellow';

/** The lines from one age on. */
export interface BilirubinStep {
  readonly fromHours: number;
  readonly treatment?: BilirubinLine;
  readonly treatmentAtRisk?: BilirubinLine;
  readonly exchange?: number;
  readonly exchangeAtRisk?: number;
}

export interface BilirubinTable {
  /** Option of the switch bilirubin-table. */
  readonly option: string;
  /** Earliest first. */
  readonly steps: readonly BilirubinStep[];
  /** Born before so many weeks, the lower of the step's line and a line by weeks. */
  readonly byWeeks?: { readonly beforeWeeks: number; readonly perWeek: number; readonly treatmentLess: number };
}

export interface Bilirubin {
  readonly switch: string;
  /** Who is held against the lines for babies at risk. */
  readonly atRisk: Condition;
  /** What is meant by any visible yellow. */
  readonly yellow: Condition;
  readonly tables: readonly BilirubinTable[];
}

export interface DoseAmount {
  readonly when: Condition;
  /** In the dose's unit; or for each kilogram. */
  readonly amount?: number;
  readonly perKg?: number;
  readonly atMost?: number;
  readonly ceiling?: { readonly amount: number; readonly perKg: number };
  /** Option of the vial's finding -> how much of the unit is in 1 ml. */
  readonly vials: Readonly<Record<string, number>>;
  readonly row: string;
}

export interface DoseRule {
  readonly drug: string;
  readonly unit: string;
  readonly times: string;
  readonly row: string;
  readonly needsWeight: boolean;
  readonly when: Condition;
  readonly already?: Condition;
  /** The finding that says what is printed on the vial. */
  readonly vial?: string;
  /** The first that holds is the dose. */
  readonly amounts: readonly DoseAmount[];
}

/** For babies from this weight on; by day of life, the last for all later days. */
export interface FeedVolumes {
  readonly fromGrams: number;
  readonly feedsPerDay: number;
  readonly mlPerKgDay?: readonly number[];
  readonly mlPerFeed?: readonly number[];
  readonly row: string;
}

export interface FeedTable {
  readonly option: string;
  /** Heaviest first. */
  readonly volumes: readonly FeedVolumes[];
}

export interface ContactRule {
  readonly contact: string;
  readonly fromHours: number;
  readonly toHours: number;
  /** True: counted from now, not from birth. */
  readonly againAfter: boolean;
  readonly when?: Condition;
  readonly row: string;
}

export interface ContactSchedule {
  readonly option: string;
  readonly contacts: readonly ContactRule[];
}
