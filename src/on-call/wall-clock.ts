// What the clock on a facility's wall shows, and when it shows it, over the changes of its zone's clock. Days are dates such as
// 2026-11-25 and count like the calendar's; instants are epoch milliseconds. Next: rota.ts.

import { IANAZone } from 'luxon';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
/** Far enough from a time on the clock to lie on either side of a change beside it, also of one that skips a whole day. */
const BESIDE = 1.5 * DAY;

/** The date there at that instant. Errors: the zone is none. */
export function dayAt(at: number, zone: string): string {
  return isoDay(at + offset(zone, at));
}

export function plusDays(day: string, days: number): string {
  return isoDay(startInUtc(day) + days * DAY);
}

/** 1 is Monday, 7 is Sunday, as ISO 8601 counts. */
export function weekdayOf(day: string): number {
  return new Date(startInUtc(day)).getUTCDay() || 7;
}

/**
 * The first instant at which the clock there shows this time of that day, or a later one.
 *
 * A time that the clock skips in spring is therefore the moment of its jump, and of a time that it shows twice in autumn the
 * first. So a time that ends one shift and begins the next is one instant, and later times are never earlier instants.
 *
 * Takes    minute: of the day, 0 and up; 1440 is the midnight at its end, 1500 is one in the morning after it.
 */
export function instantOf(day: string, minute: number, zone: string): number {
  const shown = startInUtc(day) + minute * MINUTE;
  const [before, after] = [offset(zone, shown - BESIDE), offset(zone, shown + BESIDE)];
  if (before === after) return shown - before;
  if (offset(zone, shown - before) === before) return shown - before;
  if (offset(zone, shown - after) === after) return shown - after;
  return jumpBetween(shown - after, shown - before, before, zone);
}

export interface WallClock {
  dayAt(at: number): string;
  instantOf(day: string, minute: number): number;
}

/** `dayAt` and `instantOf` for instants in this span, quick where the clock does not change in or beside it, as in most weeks. */
export function wallClockOver(zone: string, from: number, until: number): WallClock {
  const steady = steadyOffset(zone, Math.floor(from / DAY), Math.ceil(until / DAY));
  if (steady === null) return { dayAt: (at) => dayAt(at, zone), instantOf: (day, minute) => instantOf(day, minute, zone) };
  return { dayAt: (at) => isoDay(at + steady), instantOf: (day, minute) => startInUtc(day) + minute * MINUTE - steady };
}

interface Steady {
  readonly first: number;
  readonly last: number;
  readonly offset: number | null;
}

/**
 * What was asked last of each zone: asking a zone for its offset takes a tenth of a millisecond, and nearly all ask for today. Pure
 * all the same, since it follows from what is compared.
 */
const lastSteady = new Map<string, Steady>();

/** Null: the clock changes in or beside these days of UTC, or might over so long a span. */
function steadyOffset(zone: string, first: number, last: number): number | null {
  const known = lastSteady.get(zone);
  if (known?.first === first && known.last === last) return known.offset;
  const margin = 4 * DAY;
  const [before, after] = [offset(zone, first * DAY - margin), offset(zone, last * DAY + margin)];
  // Over a longer span the clock may have been put on and back.
  const steady = { first, last, offset: before === after && last - first <= 8 ? before : null };
  lastSteady.set(zone, steady);
  return steady.offset;
}

/** The moment of the jump, by halving: before it the offset is `before`. */
function jumpBetween(from: number, until: number, before: number, zone: string): number {
  let [low, high] = [from, until];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offset(zone, middle) === before) low = middle;
    else high = middle;
  }
  return high;
}

/** How far the clock there is ahead of UTC, in milliseconds. */
function offset(zone: string, at: number): number {
  const minutes = IANAZone.create(zone).offset(at);
  if (Number.isNaN(minutes)) throw new Error(`"${zone}" is not a time zone. Mend the zone of the facility in the roster.`);
  return minutes * MINUTE;
}

function startInUtc(day: string): number {
  return Date.parse(`${day}T00:00:00Z`);
}

function isoDay(shownInUtc: number): string {
  return new Date(shownInUtc).toISOString().slice(0, 10);
}
