// The register of a month as a coordinator prints it: a line that says what it is, a line of headings, a line for each
// examination. Cells are words in one language; how a file of them is written is for the caller (src/cli/export.ts).

import { DateTime } from 'luxon';
import type { Case, Finding, FindingValue } from '../../clinical/protocol.ts';
import { gestationText, reasonsFor } from '../../dialog/phrases.ts';
import type { Say, SayValue } from '../../dialog/reply.ts';
import type { ExportedExamination, ExportedReferral, RegisterMonth } from './month.ts';

/** In the order of the columns; each has its heading in locales/<language>/register.yaml. */
export const columns = [
  'date',
  'time',
  'code',
  'check',
  'sex',
  'age',
  'weeks',
  'birth-weight',
  'temperature',
  'breaths',
  'heart-rate',
  'danger-signs',
  'classifications',
  'urgency',
  'sent-to',
  'left',
  'arrived',
  'outcome',
  'next-check',
  'worker',
] as const;
type Column = (typeof columns)[number];

export interface TableParts {
  /** The words of a key in the language of the table. */
  readonly speak: (key: string, values?: Readonly<Record<string, SayValue>>) => string;
  readonly findings: ReadonlyMap<string, Finding>;
  readonly has: (key: string) => boolean;
  readonly isBox: (classification: string) => boolean;
  readonly facilityName: (id: string) => string;
  readonly workerName: (phone: string) => string;
}

export function tableOf(month: RegisterMonth, parts: TableParts): string[][] {
  const versions = [...new Set(month.examinations.flatMap(({ version }) => version ?? []))].sort();
  const title = parts.speak('register.title', {
    facility: month.facility?.name ?? parts.speak('register.not-named'),
    month: month.month,
    versions: versions.join(', ') || '-',
  });
  const heading = columns.map((column) => parts.speak(`register.column.${column}`));
  const lines = month.examinations.map((examination) => {
    const cells = cellsOf(examination, month, parts);
    return columns.map((column) => cells[column]);
  });
  return [[title], heading, ...lines];
}

function cellsOf(examination: ExportedExamination, month: RegisterMonth, parts: TableParts): Record<Column, string> {
  const { speak } = parts;
  const { found, worker } = examination;
  const aCase = found?.case;
  const given = found?.interpretation.classifications ?? [];
  const spoken = (sayings: readonly Say[]): string => sayings.map((one) => speak(one.key, one.values)).join('; ');
  const referral = referralAfter(examination, month);
  const when = (at: number | null | undefined): string => (at == null ? '' : stamp(at, month));
  const next = nextCheck(examination, month);
  return {
    date: day(examination.at, month),
    time: month.precision === 'week' ? '' : DateTime.fromMillis(examination.at, { zone: month.zone }).toFormat('HH:mm'),
    code: examination.code ?? '',
    check: checkName(examination, parts),
    sex: aCase?.sex == null ? '' : speak(`register.sex.${aCase.sex}`),
    age: aCase?.ageHours == null ? '' : String(Math.floor(aCase.ageHours)),
    weeks: aCase?.gestation == null ? '' : String(gestationText(aCase.gestation)),
    'birth-weight': aCase?.birthWeightGrams == null ? '' : String(aCase.birthWeightGrams),
    temperature: readings(aCase, 'temperature'),
    breaths: readings(aCase, 'respiratory-rate'),
    'heart-rate': readings(aCase, 'heart-rate'),
    'danger-signs': spoken(
      reasonsFor(
        given.filter((one) => one.urgency === 'urgent'),
        parts,
      ),
    ),
    classifications: given
      .filter(({ id }) => !parts.isBox(id))
      .map(({ id }) => speak(`classifications.${id}`))
      .join('; '),
    urgency: speak(`register.urgency.${examination.urgency}`),
    'sent-to': referral === undefined ? '' : referral.receiving === null ? speak('referral.place') : parts.facilityName(referral.receiving),
    left: referral?.state === 'refused' ? speak('referral.news.refused') : when(referral?.leftAt),
    arrived: when(referral?.arrivedAt),
    outcome: referral?.outcome == null ? '' : speak(`referral.news.${referral.outcome}`),
    'next-check': when(next?.dueAt),
    worker: worker === null ? '' : parts.workerName(worker),
  };
}

function checkName({ flow, isFinished }: ExportedExamination, { speak }: TableParts): string {
  if (!isFinished) return speak('register.check.not-finished');
  return flow === null ? '' : speak(`register.check.${flow}`);
}

/** All readings in order; empty: not measured. */
function readings(aCase: Case | undefined, of: string): string {
  const value: FindingValue | undefined = aCase?.findings[of];
  if (value === undefined || value === null) return '';
  return Array.isArray(value) ? value.join(' ') : String(value);
}

/** A referral begins with the alert, before the examination ends: it is told with the examination that ended next. */
export function referralAfter({ baby, at }: ExportedExamination, month: RegisterMonth): ExportedReferral | undefined {
  const others = month.examinations.filter((one) => one.baby === baby && one.at < at);
  const before = Math.max(Number.NEGATIVE_INFINITY, ...others.map((one) => one.at));
  return month.referrals.findLast((one) => one.baby === baby && one.at > before && one.at <= at);
}

/** The first contact or second look that follows from it. */
function nextCheck({ key }: ExportedExamination, { work }: RegisterMonth) {
  return work.find((one) => one.examination === key && (one.work === 'recheck' || one.work === 'contact'));
}

function day(at: number, { zone, precision }: RegisterMonth): string {
  const then = DateTime.fromMillis(at, { zone });
  return then.toFormat(precision === 'week' ? "kkkk-'W'WW" : 'yyyy-MM-dd');
}

function stamp(at: number, month: RegisterMonth): string {
  return month.precision === 'week' ? day(at, month) : DateTime.fromMillis(at, { zone: month.zone }).toFormat('yyyy-MM-dd HH:mm');
}
