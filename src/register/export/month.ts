// What an export says of one facility and month: the examinations that ended in it, and what hangs on their babies. Only types,
// and where a month begins and ends. Next: read-month.ts, then table.ts (for a spreadsheet) and fhir-bundle.ts (for a health record).

import { DateTime } from 'luxon';
import type { Case, Interpretation, Sex } from '../../clinical/protocol.ts';
import type { Work } from '../../conversation/records.ts';
import type { ReferralNews, ReferralState } from '../../on-call/referral.ts';

export interface ExportedExamination {
  readonly key: string;
  readonly baby: string;
  /** Null in a de-identified export, and once the baby was erased. */
  readonly code: string | null;
  readonly worker: string | null;
  readonly flow: string | null;
  /** False: an alert whose examination was never finished, with what was found until then. */
  readonly isFinished: boolean;
  readonly urgency: Interpretation['urgency'];
  readonly version: string | null;
  readonly at: number;
  /** Null once the baby was erased: only urgency, day and facility stay. */
  readonly found: { readonly case: Case; readonly interpretation: Interpretation } | null;
}

export interface ExportedBaby {
  readonly id: string;
  readonly code: string | null;
  readonly sex: Sex | null;
  readonly bornAt: number | null;
  readonly gestationDays: number | null;
  readonly birthWeightGrams: number | null;
  readonly card: string | null;
  readonly hasDied: boolean;
}

export interface ExportedAlert {
  readonly key: string;
  readonly baby: string;
  readonly at: number;
  readonly state: 'open' | 'taken' | 'closed';
  readonly takenAt: number | null;
}

export interface ExportedReferral {
  readonly key: string;
  readonly baby: string;
  readonly urgency: 'urgent' | 'refer';
  readonly receiving: string | null;
  readonly at: number;
  readonly state: ReferralState;
  readonly leftAt: number | null;
  readonly arrivedAt: number | null;
  readonly outcome: ReferralNews | null;
  readonly reason: string | null;
}

export interface ExportedText {
  readonly key: string;
  readonly baby: string;
  readonly at: number;
  readonly urgent: boolean;
  readonly state: 'due' | 'sent' | 'delivered' | 'unknown' | 'undelivered' | 'given-up';
  /** Null in a de-identified export. */
  readonly recipient: string | null;
  readonly text: string | null;
}

export interface ExportedWork {
  readonly key: string;
  readonly baby: string;
  readonly examination: string | null;
  readonly work: Work;
  readonly dueAt: number;
  readonly state: 'pending' | 'done' | 'missed' | 'void';
}

export interface RegisterMonth {
  /** Its name stands for it in print. Null: too few births in the month for the facility to be named (de-identified only). */
  readonly facility: { readonly id: string; readonly name: string } | null;
  readonly zone: string;
  /** 2026-11 */
  readonly month: string;
  /** `week`: every instant is the Monday of its week. */
  readonly precision: 'instant' | 'week';
  readonly babies: readonly ExportedBaby[];
  readonly examinations: readonly ExportedExamination[];
  readonly alerts: readonly ExportedAlert[];
  readonly referrals: readonly ExportedReferral[];
  readonly texts: readonly ExportedText[];
  readonly work: readonly ExportedWork[];
}

/** The month's first instant and that of the next, at the facility; null when it is no month. */
export function boundsOf(month: string, zone: string): { readonly from: number; readonly until: number } | null {
  if (!/^\d{4}-(0[1-9]|1[0-2])$/.test(month)) return null;
  const first = DateTime.fromISO(`${month}-01`, { zone });
  return first.isValid ? { from: first.toMillis(), until: first.plus({ months: 1 }).toMillis() } : null;
}
