// Figures as series by week, for plots: every week of the days has its place, and one without a value keeps it empty.
// Next: src/register/report/figures.ts, which counts them.

import { DateTime } from 'luxon';
import type { Days, FigureSeries, Scope } from '../../conversation/watch.ts';
import type { Database } from '../database.ts';
import { type Figure, readFigures } from '../report/figures.ts';

/** Of one facility only its own rows are read; of several, those of all. */
export async function figureSeries(database: Database, facilities: Scope, days: Days, now: number): Promise<FigureSeries[]> {
  const [only] = facilities?.length === 1 ? facilities : [];
  const figures = await readFigures(database, days, only ?? null, now);
  const seen = facilities === null ? figures : figures.filter(({ facility }) => facility !== null && facilities.includes(facility));
  return seriesOf(seen, days);
}

/** By name, then as they come: all facilities together first. */
export function seriesOf(figures: readonly Figure[], days: Days): FigureSeries[] {
  const weeks = weeksOf(days);
  const values = new Map(figures.map(({ name, facility, week, value }) => [JSON.stringify([name, facility, week]), value]));
  const series = new Map(figures.map(({ name, facility }) => [JSON.stringify([name, facility]), { name, facility }]));
  return [...series.values()]
    .map(({ name, facility }): FigureSeries => {
      const valueIn = (week: string | null): number | null => values.get(JSON.stringify([name, facility, week])) ?? null;
      return { name, facility, whole: valueIn(null), weeks: weeks.map((week) => ({ week, value: valueIn(week) })) };
    })
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
}

function weeksOf({ from, until }: Days): string[] {
  const last = DateTime.fromISO(until, { zone: 'utc' });
  const weeks: string[] = [];
  for (let day = DateTime.fromISO(from, { zone: 'utc' }).startOf('week'); day <= last; day = day.plus({ weeks: 1 }))
    weeks.push(day.toFormat("kkkk-'W'WW"));
  return weeks;
}
