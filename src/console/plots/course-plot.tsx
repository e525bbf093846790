// One baby's course as plots: its weight, then each vital sign on the same axis of age. Takes data and words, and knows no limit.
// Next: weight-plot.tsx, vital-plot.tsx, and plots.css for how they look.

import type { JSX } from 'preact';
import type { GrowthCurves } from '../../clinical/growth-curves.ts';
import type { TimedReading } from '../../conversation/watch.ts';
import type { Say } from './frame.tsx';
import { type Vital, VitalPlot } from './vital-plot.tsx';
import { WeightPlot } from './weight-plot.tsx';

export interface Course {
  /** Begins the id of each plot; of this course alone on its page. */
  readonly id: string;
  readonly birthWeightGrams: number | null;
  /** In grams, oldest first. */
  readonly weights: readonly TimedReading[];
  /** Drawn until the same day of age. */
  readonly curves: GrowthCurves | null;
  readonly vitals: readonly Vital[];
  /** From daysShown in age-axis.tsx. */
  readonly untilDays: number;
  readonly say: Say;
}

export function CoursePlot({ id, birthWeightGrams, weights, curves, vitals, untilDays, say }: Course): JSX.Element {
  return (
    <div class="plots">
      <WeightPlot {...{ birthWeightGrams, curves, untilDays, say }} id={`${id}-weight`} readings={weights} />
      {vitals.map((vital) => (
        <VitalPlot {...{ vital, untilDays, say }} key={vital.of} id={`${id}-${vital.of}`} />
      ))}
    </div>
  );
}
