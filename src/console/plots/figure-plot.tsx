// One figure by week, a small plot for each facility on one scale, so that they can be held beside one another. A week without a
// value is a gap with a mark of its own: there was nothing to count, which is not 0. Next: frame.tsx, plots.css.

import { type ScaleBand, type ScaleLinear, scaleBand, scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { JSX } from 'preact';
import type { FigureSeries } from '../../conversation/watch.ts';
import { Frame, type Say, width } from './frame.tsx';

export interface Figured {
  /** Begins the id of each plot. */
  readonly id: string;
  /** Counts as bars, shares and times as a line. */
  readonly kind: 'bars' | 'line';
  /** A share is a fraction of 1, shown as a percentage. */
  readonly unit: 'count' | 'share' | 'minutes';
  /** Of one figure, each with the name of its facility. */
  readonly series: readonly (Pick<FigureSeries, 'weeks'> & { readonly place: string })[];
  readonly say: Say;
}

type Week = FigureSeries['weeks'][number];
type Known = Week & { readonly value: number };

const height = 150;
const [left, right, top, bottom] = [34, 8, 18, height - 22];
/** More than so many values beside their marks would lie over one another. */
const mostWritten = 8;
const mostWeekNames = 8;

export function FigurePlot({ id, kind, unit, series, say }: Figured): JSX.Element {
  const highest = Math.max(0, ...series.flatMap(({ weeks }) => weeks.map(({ value }) => shown(value ?? 0, unit))));
  const y = scaleLinear([0, highest === 0 ? 1 : highest], [bottom, top]).nice(3);
  return (
    <div class="plots">
      {series.map(({ place, weeks }, number) => (
        <FigurePanel {...{ kind, unit, weeks, y, say }} key={place} id={`${id}-${number}`} name={place} />
      ))}
    </div>
  );
}

interface Panel extends Pick<Figured, 'kind' | 'unit' | 'say'> {
  readonly id: string;
  readonly name: string;
  readonly weeks: readonly Week[];
  readonly y: ScaleLinear<number, number>;
}

function FigurePanel({ id, name, kind, unit, weeks, y, say }: Panel): JSX.Element {
  const x = scaleBand(
    weeks.map(({ week }) => week),
    [left, width - right],
  ).padding(0.28);
  const known = weeks.filter((one): one is Known => one.value !== null);
  const gaps = weeks.filter(({ value }) => value === null);
  const middle = (week: string): number => (x(week) ?? 0) + x.bandwidth() / 2;
  const written = (value: number): string => say(`plot.value.${unit}`, { value: shown(value, unit) });
  return (
    <Frame
      {...{ id, name, height, say }}
      unit={say(`plot.unit.${unit}`)}
      description={describe(weeks, known, written, say)}
      notes={gaps.length === 0 ? [] : [say('plot.gap')]}
      table={{
        head: [say('plot.week'), say(`plot.unit.${unit}`)],
        rows: weeks.map(({ week, value }) => [week, value === null ? say('plot.no-value') : written(value)]),
      }}
    >
      <FigureAxes {...{ x, y, weeks }} />
      {kind === 'bars' ? <Bars {...{ known, unit, x, y }} /> : <Line {...{ weeks, known, unit, y, middle }} />}
      {gaps.map(({ week }) => (
        <text class="plot-gap" key={week} x={middle(week)} y={bottom - 5} text-anchor="middle">
          –
        </text>
      ))}
      {weeks.length > mostWritten
        ? null
        : known.map(({ week, value }) => (
            <text class="plot-value" key={week} x={middle(week)} y={y(shown(value, unit)) - 7} text-anchor="middle">
              {shown(value, unit)}
            </text>
          ))}
    </Frame>
  );
}

function FigureAxes({ x, y, weeks }: { x: ScaleBand<string>; y: ScaleLinear<number, number>; weeks: readonly Week[] }): JSX.Element {
  const every = Math.ceil(weeks.length / mostWeekNames);
  return (
    <g class="plot-axis">
      {y.ticks(3).map((value) => (
        <g key={value}>
          <line class="plot-grid" x1={left} x2={width - right} y1={y(value)} y2={y(value)} />
          <text x={left - 6} y={y(value) + 4} text-anchor="end">
            {value}
          </text>
        </g>
      ))}
      {weeks
        .filter((_, place) => place % every === 0)
        .map(({ week }) => (
          <text key={week} x={(x(week) ?? 0) + x.bandwidth() / 2} y={bottom + 14} text-anchor="middle">
            {week.slice(week.indexOf('W'))}
          </text>
        ))}
    </g>
  );
}

interface Marks extends Pick<Figured, 'unit'> {
  readonly known: readonly Known[];
  readonly y: ScaleLinear<number, number>;
}

/** A count of 0 keeps a line on the ground, which a gap has not. */
function Bars({ known, unit, x, y }: Marks & { readonly x: ScaleBand<string> }): JSX.Element {
  return (
    <g>
      {known.map(({ week, value }) => {
        const above = Math.min(y(shown(value, unit)), bottom - 1.5);
        return <rect class="plot-bar" key={week} x={x(week)} width={x.bandwidth()} y={above} height={bottom - above} />;
      })}
    </g>
  );
}

function Line({ weeks, known, unit, y, middle }: Marks & { weeks: readonly Week[]; middle: (week: string) => number }): JSX.Element {
  const path = line<Week>(
    ({ week }) => middle(week),
    ({ value }) => y(shown(value ?? 0, unit)),
  ).defined(({ value }) => value !== null);
  return (
    <g>
      <path class="plot-course" d={path(weeks) ?? ''} />
      {known.map(({ week, value }) => (
        <circle class="plot-point" key={week} cx={middle(week)} cy={y(shown(value, unit))} r={3.5} />
      ))}
    </g>
  );
}

/** As it is written: a share in percent, to a tenth. */
function shown(value: number, unit: Figured['unit']): number {
  return unit === 'share' ? Math.round(value * 1000) / 10 : value;
}

function describe(weeks: readonly Week[], known: readonly Known[], written: (value: number) => string, say: Say): string {
  const last = known.at(-1);
  if (last === undefined) return say('plot.describe-nothing', { weeks: weeks.length });
  const values = known.map(({ value }) => value);
  return say('plot.describe-figure', {
    ...{ weeks: weeks.length, without: weeks.length - known.length, week: last.week, last: written(last.value) },
    ...{ lowest: written(Math.min(...values)), highest: written(Math.max(...values)) },
  });
}
