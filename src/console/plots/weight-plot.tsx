// A baby's weight against the lines of the standard that it grows by, and its birth weight against the size at birth. What the
// lines are and where they lie comes in as data (src/clinical/growth-curves.ts). Next: course-plot.tsx.

import { scaleLinear } from 'd3-scale';
import { line, symbol, symbolSquare } from 'd3-shape';
import type { JSX } from 'preact';
import type { GrowthCurves, GrowthLine } from '../../clinical/growth-curves.ts';
import type { TimedReading } from '../../conversation/watch.ts';
import { AgeAxis, ageScale, ageText, left, type Placed, placed, right, withoutAge } from './age-axis.tsx';
import { Empty, Frame, type Say, type Table, width } from './frame.tsx';
import { spread } from './spread.ts';

export interface Weighed {
  readonly id: string;
  readonly birthWeightGrams: number | null;
  /** In grams, oldest first. */
  readonly readings: readonly TimedReading[];
  /** Null: the sex is not known. */
  readonly curves: GrowthCurves | null;
  readonly untilDays: number;
  readonly say: Say;
}

const height = 232;
const [top, bottom] = [10, height - 22];
const gramsPerKilogram = 1000;

export function WeightPlot(weighed: Weighed): JSX.Element {
  const { id, birthWeightGrams, readings, say } = weighed;
  const name = say('plot.weight');
  if (birthWeightGrams === null && readings.length === 0) return <Empty name={name} why={say('plot.no-readings')} />;
  const points = placed(readings);
  const own = [...(birthWeightGrams === null ? [] : [{ days: 0, value: birthWeightGrams }]), ...points];
  return (
    <Frame
      {...{ id, name, height, say }}
      unit={say('plot.kilograms')}
      description={descriptionOf(weighed)}
      notes={notesOf(weighed)}
      table={tableOf(weighed)}
    >
      {own.length === 0 ? null : drawn(weighed, own)}
    </Frame>
  );
}

function drawn({ birthWeightGrams, curves, untilDays, say }: Weighed, own: readonly Placed[]): JSX.Element {
  const x = ageScale(untilDays);
  const band = curves?.atBirth ?? null;
  const lines = (curves?.lines ?? []).filter(({ points }) => points.length > 0);
  const all = [
    ...own.map(({ value }) => value),
    ...lines.flatMap(({ points }) => points.map(({ grams }) => grams)),
    ...(band === null ? [] : [band.lowGrams, band.highGrams]),
  ];
  const y = scaleLinear([Math.min(...all) * 0.97, Math.max(...all) * 1.03], [bottom, top]);
  const path = line<Placed>(
    ({ days }) => x(days),
    ({ value }) => y(value),
  );
  const labels = spread(
    lines.map(({ points }) => y(points.at(-1)?.grams ?? 0)),
    11,
  );
  const end = (grams: number): string => `M${x(0) - 4},${y(grams)}h8`;
  return (
    <>
      <AgeAxis {...{ untilDays, top, bottom, say }} />
      <g class="plot-axis">
        {y.ticks(6).map((grams) => (
          <g key={grams}>
            <line class="plot-grid" x1={left} x2={width - right} y1={y(grams)} y2={y(grams)} />
            <text x={left - 7} y={y(grams) + 4} text-anchor="end">
              {(grams / gramsPerKilogram).toFixed(1)}
            </text>
          </g>
        ))}
      </g>
      {lines.map(({ z, points }, place) => (
        <g key={z}>
          <path
            class={`plot-standard plot-z${Math.abs(z)}`}
            d={path(points.map(({ ageDays, grams }) => ({ days: ageDays, value: grams }))) ?? ''}
          />
          <text class="plot-label" x={width - right + 5} y={(labels[place] ?? 0) + 4}>
            {zText(z, say)}
          </text>
        </g>
      ))}
      {band === null ? null : (
        <path class="plot-birth-band" d={`${end(band.highGrams)}M${x(0)},${y(band.highGrams)}V${y(band.lowGrams)}${end(band.lowGrams)}`} />
      )}
      <path class="plot-course" d={path([...own]) ?? ''} />
      {own.map(({ days, value }, place) =>
        place === 0 && birthWeightGrams !== null ? (
          <path class="plot-point" key={place} d={symbol(symbolSquare, 52)() ?? ''} transform={`translate(${x(days)},${y(value)})`} />
        ) : (
          <circle class="plot-point" key={place} cx={x(days)} cy={y(value)} r={3.5} />
        ),
      )}
    </>
  );
}

function zText(z: number, say: Say): string {
  return z === 0 ? say('plot.z-median') : say(z > 0 ? 'plot.z-above' : 'plot.z-below', { z: Math.abs(z) });
}

function descriptionOf({ birthWeightGrams, readings, say }: Weighed): string {
  const last = readings.at(-1);
  if (last === undefined) return say('plot.describe-birth-weight', { grams: birthWeightGrams ?? 0 });
  const values = readings.map(({ value }) => value);
  const [lowest, highest] = [Math.min(...values), Math.max(...values)];
  return say('plot.describe-weights', { count: readings.length, lowest, highest, last: last.value, age: ageText(last.ageHours, say) });
}

function notesOf({ readings, curves, say }: Weighed): string[] {
  const band = curves?.atBirth ?? null;
  return [
    curves === null ? say('plot.no-curves') : say('plot.drawn-against', { standard: say(`plot.standard.${curves.standard}`) }),
    ...(band === null
      ? []
      : [say('plot.birth-band', { low: band.lowCentile, high: band.highCentile, standard: say(`plot.standard.${band.standard}`) })]),
    ...withoutAge(readings, say),
  ];
}

/** Each weight beside where the lines lie on that day. */
function tableOf({ birthWeightGrams, readings, curves, say }: Weighed): Table {
  const lines = curves?.lines ?? [];
  const row = (age: string, grams: number, ageHours: number | null): string[] => [
    age,
    `${grams}`,
    ...lines.map((one) => gramsOn(one, ageHours)),
  ];
  const atBirth = birthWeightGrams === null ? [] : [row(say('plot.at-birth'), birthWeightGrams, 0)];
  return {
    head: [say('plot.age'), say('plot.grams'), ...lines.map(({ z }) => zText(z, say))],
    rows: [...atBirth, ...readings.map(({ ageHours, value }) => row(ageText(ageHours, say), value, ageHours))],
  };
}

const noGrams = '–';

function gramsOn({ points }: GrowthLine, ageHours: number | null): string {
  if (ageHours === null) return noGrams;
  const grams = points.find(({ ageDays }) => ageDays === Math.floor(ageHours / 24))?.grams;
  return grams === undefined ? noGrams : `${Math.round(grams)}`;
}
