// The coordinator's figures, per facility and ISO week of the facility's own calendar, per facility, and over all. Each is a name
// and a value, so that a spreadsheet can turn them as it likes. A count may be 0; a share or a time of nothing has no value. Next: queries.ts.

import { measure } from '../../messages/segments.ts';
import type { Database, Sql } from '../database.ts';
import { storableText } from '../storable.ts';
import { aroundPeriod, type Period } from './period.ts';
import { counted, type Query, textsSent, timed } from './queries.ts';

export interface Figure {
  /** Null: all facilities. */
  readonly facility: string | null;
  /** As 2026-W47; null: the whole period. */
  readonly week: string | null;
  readonly name: string;
  /** Null: there was nothing to count it from. */
  readonly value: number | null;
}

/**
 * All rows as of one instant.
 *
 * Takes    facility: null for all of them.
 *          now: what is still to come by then, such as a contact whose time is not over, does not count yet.
 */
export function readFigures(database: Database, period: Period, facility: string | null, now: number): Promise<Figure[]> {
  return database.transaction(async (sql) => {
    await sql.script('set transaction isolation level repeatable read');
    const read = <Row>(query: Query): Promise<Row[]> => run<Row>(sql, query, period, facility, now);
    const figures: Figure[] = [];
    for (const query of counted) figures.push(...(await read<Counted>(query)).map(figureOf));
    for (const query of timed) figures.push(...(await read<Timed>(query)).flatMap(timesOf));
    figures.push(...segmentsOf(await read<Sent>(textsSent)));
    const whole = [...figures, ...noughts(figures)];
    return [...whole, ...sharesOf(whole)].sort(inOrder);
  });
}

interface Counted {
  readonly facility: string | null;
  readonly week: string | null;
  readonly name: string;
  readonly value: number;
}

interface Timed extends Omit<Counted, 'value'> {
  readonly count: number;
  /** Median and 90th percentile. */
  readonly minutes: readonly [number, number] | null;
}

function run<Row>(sql: Sql, query: Query, period: Period, facility: string | null, now: number): Promise<Row[]> {
  const { first, last } = aroundPeriod(period);
  const only = facility === null ? null : storableText(facility);
  return sql.query<Row>(query, [first, Math.min(last, now + 1), period.from, period.until, only]);
}

const figureOf = ({ facility, week, name, value }: Counted): Figure => ({ facility, week, name, value });

function timesOf({ facility, week, name, count, minutes }: Timed): Figure[] {
  const rounded = (value: number | undefined): number | null => (value === undefined ? null : Math.round(value * 10) / 10);
  return [
    { facility, week, name: `${name}.count`, value: count },
    { facility, week, name: `${name}.median`, value: rounded(minutes?.[0]) },
    { facility, week, name: `${name}.90th`, value: rounded(minutes?.[1]) },
  ];
}

interface Sent {
  readonly facility: string;
  readonly week: string;
  readonly text: string;
  readonly segments: number | null;
  readonly times: number;
}

/** Texts are measured as they were sent; the database cannot. The replies to what a worker texts are in no table. */
function segmentsOf(sent: readonly Sent[]): Figure[] {
  const sums = new Map<string, Figure>();
  for (const { facility: of, week, text, segments: counted, times } of sent) {
    for (const [place, when] of [
      [of, week],
      [of, null],
      [null, null],
    ]) {
      const key = JSON.stringify([place, when]);
      const before = sums.get(key)?.value ?? 0;
      const value = before + (counted ?? measure(text).segments) * times;
      sums.set(key, { facility: place ?? null, week: when ?? null, name: 'texts.segments', value });
    }
  }
  return [...sums.values()];
}

/** Counted wherever anything was: that there was none of these is news. */
const alwaysCounted = [
  ...['examinations', 'examinations.given-up', 'babies.new', 'alerts', 'alerts.not-taken', 'alerts.examination-not-ended'],
  ...['contacts.due', 'reminders.missed'],
];

/** The zeros of every facility and week of which there is any figure. Done on time is none only of those that were due. */
function noughts(figures: readonly Figure[]): Figure[] {
  const places = new Map(figures.map((one) => [keyOf(one, ''), one]));
  const known = new Map(figures.map((one) => [keyOf(one, one.name), one.value]));
  return [...places.values()].flatMap(({ facility, week }) => {
    const has = (name: string): boolean => known.has(keyOf({ facility, week }, name));
    const due = has('contacts.due') ? ['contacts.on-time'] : [];
    return [...alwaysCounted, ...due].filter((name) => !has(name)).map((name) => ({ facility, week, name, value: 0 }));
  });
}

/** Of what each share is one. */
const wholes: readonly (readonly [part: RegExp, whole: string])[] = [
  [/^examinations\.urgency\.[a-z]+$/, 'examinations'],
  [/^examinations\.given-up$/, 'examinations.begun'],
  [/^contacts\.on-time$/, 'contacts.due'],
];

/** Rounded to a thousandth. */
function sharesOf(figures: readonly Figure[]): Figure[] {
  const known = new Map(figures.map((one) => [keyOf(one, one.name), one.value]));
  return figures.flatMap((one) => {
    const whole = wholes.find(([part]) => part.test(one.name))?.[1];
    const of = whole === undefined ? null : (known.get(keyOf(one, whole)) ?? null);
    if (one.value === null || of === null || of === 0) return [];
    return [{ ...one, name: `${one.name}.share`, value: Math.round((one.value / of) * 1000) / 1000 }];
  });
}

function keyOf({ facility, week }: Pick<Figure, 'facility' | 'week'>, name: string): string {
  return JSON.stringify([facility, week, name]);
}

/** All facilities first, each with its whole period before its weeks. */
function inOrder(a: Figure, b: Figure): number {
  const compare = (one: string | null, other: string | null): number => (one ?? '').localeCompare(other ?? '', 'en');
  return compare(a.facility, b.facility) || compare(a.week, b.week) || a.name.localeCompare(b.name, 'en');
}
