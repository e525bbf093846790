// Two shifts of one facility with the same order at the same time: who is asked first would be chance. Dated shifts stand in for
// weekly ones, so only two of a kind can overlap. Two leaves of one person must not overlap either.

import { beginsOn, type Leave, lengthOf, type Shift } from '../../on-call/rota.ts';
import { plusDays } from '../../on-call/wall-clock.ts';
import { faultOf } from '../read-roster-cells.ts';
import { cellOf, type Placed } from '../read-roster-table.ts';
import type { Report } from '../yaml-source.ts';

const minutesPerDay = 1440;

export function checkOverlaps(shifts: readonly Placed<Shift>[], leave: readonly Placed<Leave>[], report: Report): void {
  for (const [index, { value, row }] of shifts.entries()) {
    const other = shifts.slice(0, index).find((one) => doOverlap(one.value, value));
    if (other === undefined) continue;
    const what = `Two shifts of "${value.facility}" with order ${value.order} overlap.`;
    const fix = 'Let one end when the other begins, or give the second an order of its own.';
    const fault = faultOf(row, cellOf(row, 'order'), 'overlap', what, fix, 'Who is asked first in these hours would be chance.');
    report({ ...fault, related: [{ file: other.row.file, range: other.row.range, what: 'This is the other shift.' }] });
  }
  for (const [index, { value, row }] of leave.entries()) {
    const other = leave.slice(0, index).find((one) => isSameLeave(one.value, value));
    if (other === undefined) continue;
    const what = `${value.phone} is on leave twice on the same days.`;
    const fault = faultOf(
      row,
      cellOf(row, 'from'),
      'leave-twice',
      what,
      'Let one end before the other begins.',
      'Who stands in would be chance.',
    );
    report({ ...fault, related: [{ file: other.row.file, range: other.row.range, what: 'This is the other leave.' }] });
  }
}

/** By the clock on the wall, which changes for both alike. */
function doOverlap(a: Shift, b: Shift): boolean {
  if (a.facility !== b.facility || a.order !== b.order) return false;
  // The day before, the same day, the day after: no shift is longer than a day.
  return [-1, 0, 1].some((later) => {
    const begins = b.fromMinute + later * minutesPerDay;
    const meets = a.fromMinute < begins + lengthOf(b) && begins < a.fromMinute + lengthOf(a);
    return meets && haveDaysApart(a, b, later);
  });
}

/** True when `b` begins on some day that lies `later` days after one on which `a` begins. */
function haveDaysApart(a: Shift, b: Shift, later: number): boolean {
  const [first, second] = [a.days, b.days];
  if (first.kind === 'weekly' && second.kind === 'weekly')
    return first.weekdays.some((day) => second.weekdays.includes(((day - 1 + later + 7) % 7) + 1));
  if (first.kind !== 'dated' || second.kind !== 'dated') return false;
  return plusDays(first.from, later) <= second.until && second.from <= plusDays(first.until, later);
}

function isSameLeave(a: Leave, b: Leave): boolean {
  return (
    a.phone === b.phone && (beginsOn({ kind: 'dated', from: a.from, until: a.until }, b.from) || (b.from <= a.from && a.from <= b.until))
  );
}
