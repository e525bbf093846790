// Takes out of a month what points at one family: names, phones, codes, cards, words of texts, exact instants. Ids become keyed
// hashes, so that a baby stays one baby across exports with the same secret and nobody without it can try numbers out.
// What stays can still single out a rare baby (a very small one, in a small place): it is not anonymous, and is not to be published.

import { createHmac } from 'node:crypto';
import { DateTime } from 'luxon';
import type { RegisterMonth } from './month.ts';

/** Short enough to guess is no secret. */
export const shortestSecret = 16;

/**
 * Ages stay in whole hours; every instant becomes the Monday of its week at the facility.
 *
 * Takes  facilityNeedsBirths: babies born in the month, below which the facility is not named.
 */
export function deIdentify(month: RegisterMonth, secret: string, facilityNeedsBirths: number): RegisterMonth {
  const hide = (id: string): string => createHmac('sha256', secret).update(id).digest('hex').slice(0, 32);
  const weekOf = (at: number): number => DateTime.fromMillis(at, { zone: month.zone }).startOf('week').toMillis();
  const week = (at: number | null): number | null => (at === null ? null : weekOf(at));
  const isOfMonth = (at: number | null): boolean =>
    at !== null && DateTime.fromMillis(at, { zone: month.zone }).toFormat('yyyy-MM') === month.month;
  const births = month.babies.filter(({ bornAt }) => isOfMonth(bornAt)).length;
  return {
    facility: births >= facilityNeedsBirths ? month.facility : null,
    zone: month.zone,
    month: month.month,
    precision: 'week',
    babies: month.babies.map((one) => ({ ...one, id: hide(one.id), code: null, card: null, bornAt: week(one.bornAt) })),
    examinations: month.examinations.map((one) => ({
      ...one,
      key: hide(one.key),
      baby: hide(one.baby),
      code: null,
      worker: null,
      at: weekOf(one.at),
      found: one.found === null ? null : inWholeHours(one.found),
    })),
    alerts: month.alerts.map((one) => ({
      ...one,
      key: hide(one.key),
      baby: hide(one.baby),
      at: weekOf(one.at),
      takenAt: week(one.takenAt),
    })),
    referrals: month.referrals.map((one) => ({
      ...one,
      key: hide(one.key),
      baby: hide(one.baby),
      receiving: null,
      at: weekOf(one.at),
      leftAt: week(one.leftAt),
      arrivedAt: week(one.arrivedAt),
    })),
    texts: month.texts.map((one) => ({
      ...one,
      key: hide(one.key),
      baby: hide(one.baby),
      at: weekOf(one.at),
      recipient: null,
      text: null,
    })),
    work: month.work.map((one) => ({
      ...one,
      key: hide(one.key),
      baby: hide(one.baby),
      examination: one.examination === null ? null : hide(one.examination),
      dueAt: weekOf(one.dueAt),
    })),
  };
}

type Found = NonNullable<RegisterMonth['examinations'][number]['found']>;

function inWholeHours({ case: aCase, interpretation }: Found): Found {
  const ageHours = aCase.ageHours == null ? null : Math.floor(aCase.ageHours);
  return { case: { ...aCase, ageHours }, interpretation: { ...interpretation, computed: {} } };
}
