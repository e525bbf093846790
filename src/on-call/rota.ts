// Who is on call for one facility at an instant: the shifts of its week, dated ones that stand in for them, and leave. Knows
// numbers and no names, and no other facility: conversation/roster.ts goes on to the facility above.
//
// A shift belongs to the day on which it begins, also past midnight; so does the leave that it falls under.
// A dated shift stands in for the weekly ones of the same order, for as long as it runs: a swap never leaves an hour to nobody.
// On a night of a clock change a shift is as long as the clock makes it: 22:00 to 06:00 is seven hours or nine.

import { plusDays, wallClockOver, weekdayOf } from './wall-clock.ts';

/** On which days a shift begins: weekdays 1 (Monday) to 7, or dates from the first to the last. */
export type ShiftDays =
  | { readonly kind: 'weekly'; readonly weekdays: readonly number[] }
  | { readonly kind: 'dated'; readonly from: string; readonly until: string };

export interface Shift {
  readonly facility: string;
  readonly days: ShiftDays;
  /** Minute of the day, 0 to 1439. */
  readonly fromMinute: number;
  /** Minute of the day, 1 to 1440; of the next day when it is not after `fromMinute`. */
  readonly toMinute: number;
  /** Phone of the nurse, E.164. */
  readonly phone: string;
  /** 1 is asked first. */
  readonly order: number;
}

/** Away from the first date to the last; `instead` takes her shifts, null: nobody does. */
export interface Leave {
  readonly phone: string;
  readonly from: string;
  readonly until: string;
  readonly instead: string | null;
}

export interface Rota {
  /** IANA zone of the facility. */
  readonly zone: string;
  /** Of this facility alone. */
  readonly shifts: readonly Shift[];
  readonly leave: readonly Leave[];
}

/** One shift as it is worked once, by whoever works it. */
export interface Duty {
  readonly shift: Shift;
  readonly phone: string;
  readonly begins: number;
  readonly ends: number;
}

export function rotaOf(facility: { readonly id: string; readonly zone: string }, all: Pick<Rota, 'shifts' | 'leave'>): Rota {
  return { zone: facility.zone, shifts: all.shifts.filter((shift) => shift.facility === facility.id), leave: all.leave };
}

/** Phones of those on call, first one first, nobody twice; none when nobody is. */
export function onCallAt(rota: Rota, at: number): readonly string[] {
  const running = dutiesBetween(rota, at, at + 1);
  const dated = new Set(running.filter(({ shift }) => shift.days.kind === 'dated').map(({ shift }) => shift.order));
  const held = running.filter(({ shift }) => shift.days.kind === 'dated' || !dated.has(shift.order));
  const inOrder = held.sort((a, b) => a.shift.order - b.shift.order || a.begins - b.begins);
  return [...new Set(inOrder.map(({ phone }) => phone))];
}

/** Every duty of which some part lies between the two instants; a shift that leave takes and nobody stands in for is none. */
export function dutiesBetween(rota: Rota, from: number, until: number): Duty[] {
  const duties: Duty[] = [];
  const clock = wallClockOver(rota.zone, from, until);
  const last = plusDays(clock.dayAt(until), 1);
  for (let day = plusDays(clock.dayAt(from), -1); day <= last; day = plusDays(day, 1)) {
    for (const shift of rota.shifts) {
      if (!beginsOn(shift.days, day)) continue;
      const begins = clock.instantOf(day, shift.fromMinute);
      const ends = clock.instantOf(day, shift.fromMinute + lengthOf(shift));
      if (begins >= until || ends <= from) continue;
      const phone = whoWorks(shift.phone, day, rota.leave);
      if (phone !== null) duties.push({ shift, phone, begins, ends });
    }
  }
  return duties;
}

export function beginsOn(days: ShiftDays, day: string): boolean {
  return days.kind === 'weekly' ? days.weekdays.includes(weekdayOf(day)) : days.from <= day && day <= days.until;
}

/** Minutes by the clock, 1 to 1440. */
export function lengthOf({ fromMinute, toMinute }: Pick<Shift, 'fromMinute' | 'toMinute'>): number {
  const minutesPerDay = 1440;
  return toMinute > fromMinute ? toMinute - fromMinute : toMinute + minutesPerDay - fromMinute;
}

/** She herself, or who stands in for her, or for them; null when they are all away. */
function whoWorks(phone: string, day: string, leave: readonly Leave[]): string | null {
  const away = new Set<string>();
  let who: string | null = phone;
  while (who !== null && !away.has(who)) {
    const absent: string = who;
    const found: Leave | undefined = leave.find((one) => one.phone === absent && one.from <= day && day <= one.until);
    if (found === undefined) return absent;
    away.add(absent);
    who = found.instead;
  }
  return null;
}
