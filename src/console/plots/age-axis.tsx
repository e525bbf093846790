// The axis that the plots of one baby share: its age, in hours where few days are shown, else in days. Next: weight-plot.tsx.

import { type ScaleLinear, scaleLinear } from 'd3-scale';
import type { JSX } from 'preact';
import type { TimedReading } from '../../conversation/watch.ts';
import { type Say, width } from './frame.tsx';

/** The same in every plot of a baby, so that one instant stands in one column. The right one holds the names of lines and bands. */
export const left = 40;
export const right = 88;

const hoursPerDay = 24;
const mostDaysInHours = 3;
/** Lengths that are shown, in days: a plot does not change its scale with each reading. */
const lengths = [3, 7, 14, 28, 42, 63, 91, 182];

/** How many days of age a course is drawn over. */
export function daysShown(ages: readonly (number | null)[]): number {
  const last = Math.max(0, ...ages.map((hours) => (hours ?? 0) / hoursPerDay));
  return lengths.find((days) => days >= last) ?? Math.ceil(last);
}

export function ageScale(untilDays: number): ScaleLinear<number, number> {
  return scaleLinear([0, untilDays], [left, width - right]);
}

/** A reading with its place; what has no age has none, and stands in the table only. */
export interface Placed {
  readonly days: number;
  readonly value: number;
}

export function placed(readings: readonly TimedReading[]): Placed[] {
  return readings.flatMap(({ ageHours, value }) => (ageHours === null ? [] : [{ days: ageHours / hoursPerDay, value }]));
}

export function withoutAge(readings: readonly TimedReading[], say: Say): string[] {
  const count = readings.filter(({ ageHours }) => ageHours === null).length;
  return count === 0 ? [] : [say('plot.without-age', { count })];
}

export function ageText(hours: number | null, say: Say): string {
  if (hours === null) return say('plot.age-not-known');
  const whole = Math.floor(hours);
  if (whole < mostDaysInHours * hoursPerDay) return say('plot.age-hours', { hours: whole });
  return say('plot.age-days', { days: Math.floor(whole / hoursPerDay), hours: whole % hoursPerDay });
}

export function AgeAxis({ untilDays, top, bottom, say }: { untilDays: number; top: number; bottom: number; say: Say }): JSX.Element {
  const x = ageScale(untilDays);
  const inHours = untilDays <= mostDaysInHours;
  return (
    <g class="plot-axis">
      {ticksOf(untilDays).map((days) => (
        <g key={days}>
          <line class="plot-grid" x1={x(days)} x2={x(days)} y1={top} y2={bottom} />
          <text x={x(days)} y={bottom + 15} text-anchor="middle">
            {inHours ? days * hoursPerDay : days}
          </text>
        </g>
      ))}
      <text x={width - right + 16} y={bottom + 15}>
        {say(inHours ? 'plot.axis-hours' : 'plot.axis-days')}
      </text>
    </g>
  );
}

function ticksOf(untilDays: number): number[] {
  const step = untilDays <= mostDaysInHours ? 1 / 2 : untilDays <= 7 ? 1 : Math.ceil(untilDays / 42) * 7;
  return Array.from({ length: Math.floor(untilDays / step) + 1 }, (_, place) => place * step);
}
