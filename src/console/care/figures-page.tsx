// The figures of the register by week, drawn for each facility: the same that `pipit report` prints. Next: src/console/plots/figure-plot.tsx.

import { DateTime } from 'luxon';
import type { FigureSeries } from '../../conversation/watch.ts';
import { type Figured, FigurePlot } from '../plots/figure-plot.tsx';
import { type Answer, root, type Visit } from '../route.ts';
import { placeName } from './named.ts';

const weeksShown = 8;

export async function figuresPage(visit: Visit): Promise<Answer> {
  const { parts, facilities, query, say } = visit;
  const days = daysIn(query, parts.now());
  const series = await parts.watch.figureSeries(facilities, days, parts.now());
  const names = [...new Set(series.map(({ name }) => name))];
  const body = (
    <>
      <form class="row" method="get" action={`${root}/figures`}>
        <label>
          {say('figures.from')}
          <input type="date" name="from" value={days.from} required />
        </label>
        <label>
          {say('figures.until')}
          <input type="date" name="until" value={days.until} required />
        </label>
        <button type="submit">{say('figures.show')}</button>
      </form>
      {names.length === 0 ? <p role="status">{say('figures.none')}</p> : null}
      {names.map((name) => (
        <section key={name}>
          <h2>{titleOf(name, visit)}</h2>
          <FigurePlot id={name.replaceAll('.', '-')} {...formOf(name)} series={placed(series, name, visit)} say={say} />
        </section>
      ))}
    </>
  );
  return { kind: 'page', title: say('nav.figures'), body };
}

function placed(series: readonly FigureSeries[], name: string, visit: Visit): Figured['series'] {
  return series
    .filter((one) => one.name === name)
    .map(({ facility, weeks }) => ({ weeks, place: facility === null ? visit.say('figures.all') : placeName(facility, visit) }));
}

function titleOf(name: string, { say }: Visit): string {
  const key = `figure.${name}`;
  const said = say(key);
  return said === key ? name : said;
}

/** By how the register names them: shares, times, and counts of what happened. */
function formOf(name: string): Pick<Figured, 'kind' | 'unit'> {
  if (name.startsWith('share.') || name.endsWith('.share')) return { kind: 'line', unit: 'share' };
  return name.startsWith('minutes.') && !name.endsWith('.count') ? { kind: 'line', unit: 'minutes' } : { kind: 'bars', unit: 'count' };
}

/** What was asked for, where it is two days; else the last weeks. */
function daysIn({ from = '', until = '' }: Visit['query'], now: number): { readonly from: string; readonly until: string } {
  const isDay = (text: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(text) && DateTime.fromISO(text).isValid;
  const today = DateTime.fromMillis(now, { zone: 'utc' });
  const last = isDay(until) ? until : today.toFormat('yyyy-MM-dd');
  const first = isDay(from) && from <= last ? from : DateTime.fromISO(last).minus({ weeks: weeksShown }).toFormat('yyyy-MM-dd');
  return { from: first, until: last };
}
