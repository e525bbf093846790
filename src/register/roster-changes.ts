// What an import changes, line by line, with before and after: the audit trail of the roster. Lines that stay are not in it, nor is
// their order. Pure. Next: roster.ts.

import type { RosterData } from '../conversation/roster.ts';
import { writeShiftDays } from '../on-call/shift-days.ts';

export interface RosterChange {
  readonly kind: 'facility' | 'person' | 'shift' | 'leave';
  /** What stays the same while the rest changes: an id, a phone, the days and hour on which a shift begins. */
  readonly about: string;
  readonly change: 'added' | 'changed' | 'removed';
  /** Null when it was added. */
  readonly before: object | null;
  /** Null when it was removed. */
  readonly after: object | null;
}

export function changesBetween(before: RosterData, after: RosterData): RosterChange[] {
  return [
    ...changesOf('facility', before.facilities, after.facilities, ({ id }) => id),
    ...changesOf('person', before.people, after.people, ({ phone }) => phone),
    ...changesOf('shift', before.shifts, after.shifts, ({ facility, days, fromMinute, order }) =>
      [facility, writeShiftDays(days), fromMinute, order].join(' '),
    ),
    ...changesOf('leave', before.leave, after.leave, ({ phone, from }) => `${phone} ${from}`),
  ];
}

function changesOf<T extends object>(
  kind: RosterChange['kind'],
  before: readonly T[],
  after: readonly T[],
  aboutOf: (line: T) => string,
): RosterChange[] {
  const [old, fresh] = [before, after].map((lines) => new Map(lines.map((line) => [aboutOf(line), line])));
  if (old === undefined || fresh === undefined) return [];
  const changes: RosterChange[] = [];
  for (const [about, line] of fresh) {
    const was = old.get(about);
    if (was === undefined) changes.push({ kind, about, change: 'added', before: null, after: line });
    else if (!isSame(was, line)) changes.push({ kind, about, change: 'changed', before: was, after: line });
  }
  for (const [about, line] of old) if (!fresh.has(about)) changes.push({ kind, about, change: 'removed', before: line, after: null });
  return changes;
}

function isSame(one: object, other: object): boolean {
  const sorted = (line: object): string => JSON.stringify(Object.entries(line).sort(([a], [b]) => (a < b ? -1 : 1)));
  return sorted(one) === sorted(other);
}
