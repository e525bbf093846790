// One vital sign of a baby over its age, on the bands of the protocol: where the normal one lies, and the limits around it. The
// limits are data of the protocol under the programme's switches; none stands here. Next: course-plot.tsx.

import { scaleLinear } from 'd3-scale';
import { line, symbol, symbolDiamond } from 'd3-shape';
import type { JSX } from 'preact';
import { bandOf } from '../../clinical/bands.ts';
import type { Band } from '../../clinical/number-line.ts';
import type { TimedReading } from '../../conversation/watch.ts';
import { AgeAxis, ageScale, ageText, left, type Placed, placed, right, withoutAge } from './age-axis.tsx';
import { Empty, Frame, type Say, width } from './frame.tsx';
import { withRoom } from './spread.ts';

export interface NamedBand extends Band {
  readonly name: string;
}

/** What is drawn of one finding of the protocol. */
export interface Vital {
  readonly of: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** As the programme's switches lay them, lowest first (bandsUnder in src/clinical/bands.ts). */
  readonly bands: readonly NamedBand[];
  /** Oldest first. */
  readonly readings: readonly TimedReading[];
}

interface Drawn {
  readonly id: string;
  readonly vital: Vital;
  readonly untilDays: number;
  readonly say: Say;
}

const height = 150;
const [top, bottom] = [10, height - 22];
/** How much of the normal band's height is shown beyond it, where no reading asks for more. */
const shareBeyond = 0.35;
const wordHeight = 12;
/** A band of which less is seen has no name beside it. */
const leastRoom = 6;

export function VitalPlot({ id, vital, untilDays, say }: Drawn): JSX.Element {
  const { name, unit, decimals, bands, readings } = vital;
  const last = readings.at(-1);
  if (last === undefined) return <Empty name={name} why={say('plot.no-readings')} />;
  const written = (value: number): string => value.toFixed(decimals);
  const nameOf = (value: number): string => bandOf(value, bands)?.name ?? say('plot.no-band');
  const values = readings.map(({ value }) => value);
  const points = placed(readings);
  return (
    <Frame
      {...{ id, name, unit, height, say }}
      description={say('plot.describe-vital', {
        ...{ count: readings.length, lowest: written(Math.min(...values)), highest: written(Math.max(...values)) },
        ...{ last: written(last.value), band: nameOf(last.value), age: ageText(last.ageHours, say) },
      })}
      notes={withoutAge(readings, say)}
      table={{
        head: [say('plot.age'), unit, say('plot.band')],
        rows: readings.map(({ ageHours, value }) => [ageText(ageHours, say), written(value), nameOf(value)]),
      }}
    >
      {points.length === 0 ? null : drawn(vital, points, untilDays, say)}
    </Frame>
  );
}

function drawn(vital: Vital, points: readonly Placed[], untilDays: number, say: Say): JSX.Element {
  const { bands, decimals } = vital;
  const x = ageScale(untilDays);
  const [low, high] = rangeOf(vital);
  const y = scaleLinear([low, high], [bottom, top]);
  const seen = bands
    .filter(({ from, to }) => to > low && from < high && to > from)
    .map((band) => ({ band, above: y(Math.min(band.to, high)), below: y(Math.max(band.from, low)) }));
  const path = line<Placed>(
    ({ days }) => x(days),
    ({ value }) => y(value),
  );
  return (
    <>
      {seen.map(({ band, above, below }) =>
        band.routine ? (
          <rect class="plot-normal" key={band.id} x={left} width={width - left - right} y={above} height={below - above} />
        ) : null,
      )}
      <AgeAxis {...{ untilDays, top, bottom, say }} />
      <Limits seen={seen} decimals={decimals} />
      <path class="plot-course" d={path([...points]) ?? ''} />
      {points.map(({ days, value }, place) => (
        // By its place: two readings may be alike, and none moves.
        <Point key={place} at={[x(days), y(value)]} isNormal={bandOf(value, bands)?.routine === true} />
      ))}
    </>
  );
}

interface Seen {
  readonly band: NamedBand;
  /** Heights on the drawing. */
  readonly above: number;
  readonly below: number;
}

/** Each limit as a line with its value, and the bands by name; where room is short, those of the normal band come first. */
function Limits({ seen, decimals }: { readonly seen: readonly Seen[]; readonly decimals: number }): JSX.Element {
  const normalFirst = (a: { routine: boolean }, b: { routine: boolean }): number => Number(b.routine) - Number(a.routine);
  const limits = seen
    .slice(1)
    .map(({ band, below }, place) => ({ at: band.from, y: below, routine: band.routine || seen[place]?.band.routine === true }))
    .sort(normalFirst);
  const names = seen
    .map(({ band: { id, name, routine }, above, below }) => ({
      id,
      name,
      routine,
      y: Math.min((above + below) / 2, bottom - 4),
      room: below - above,
    }))
    .filter(({ room }) => room >= leastRoom)
    .sort(normalFirst);
  return (
    <>
      <g class="plot-axis">
        {limits.map(({ at, y }) => (
          <line class="plot-limit" key={at} x1={left} x2={width - right} y1={y} y2={y} />
        ))}
        {withRoom(limits, wordHeight).map(({ at, y }) => (
          <text key={at} x={left - 7} y={y + 4} text-anchor="end">
            {at.toFixed(decimals)}
          </text>
        ))}
      </g>
      {withRoom(names, wordHeight).map(({ id, name, y }) => (
        <text class="plot-label" key={id} x={width - right + 5} y={y + 4}>
          {name}
        </text>
      ))}
    </>
  );
}

/** Outside what is normal a reading has another shape, not only another colour. */
function Point({ at: [x, y], isNormal }: { at: readonly [number, number]; isNormal: boolean }): JSX.Element {
  if (isNormal) return <circle class="plot-point" cx={x} cy={y} r={3.5} />;
  return <path class="plot-point plot-outside" d={symbol(symbolDiamond, 72)() ?? ''} transform={`translate(${x},${y})`} />;
}

/** What is normal, a little beyond it, and every reading; never beyond what the protocol calls plausible unless something was read there. */
function rangeOf({ bands, readings }: Vital): readonly [number, number] {
  const values = readings.map(({ value }) => value);
  const normal = bands.filter(({ routine }) => routine);
  const [from, to] = [Math.min(...normal.map((band) => band.from), ...values), Math.max(...normal.map((band) => band.to), ...values)];
  const beyond = (to - from || 1) * shareBeyond;
  const [first, last] = [bands[0]?.from ?? from - beyond, bands.at(-1)?.to ?? to + beyond];
  return [Math.min(...values, Math.max(first, from - beyond)), Math.max(...values, Math.min(last, to + beyond))];
}
