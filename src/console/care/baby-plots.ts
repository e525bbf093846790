// What is drawn of a baby's course: its weights with the curves of its standard, and each vital sign with the bands of the protocol
// as the programme's switches lay them. Next: src/console/plots/course-plot.tsx.

import { bandsUnder } from '../../clinical/bands.ts';
import type { BabyCourse, TimedReading } from '../../conversation/watch.ts';
import { daysShown } from '../plots/age-axis.tsx';
import type { Course } from '../plots/course-plot.tsx';
import type { Vital } from '../plots/vital-plot.tsx';
import type { InUse } from '../ports.ts';
import type { Visit } from '../route.ts';

const vitalSigns = ['temperature', 'respiratory-rate', 'heart-rate', 'oxygen-saturation'] as const;

export function courseDrawn(
  course: BabyCourse,
  { protocol, curves: curvesOf }: Pick<InUse, 'protocol' | 'curves'>,
  { say }: Pick<Visit, 'say'>,
): Omit<Course, 'id' | 'say'> {
  const { baby, gestation, readings } = course;
  const read = (of: string): readonly TimedReading[] => readings[of] ?? [];
  const vitals = vitalSigns.flatMap((of): Vital[] => {
    const finding = protocol.findingById.get(of);
    if (finding === undefined || !('bands' in finding) || read(of).length === 0) return [];
    const bands = bandsUnder(finding, protocol.limits, (id) => protocol.switches.get(id)?.options[0]);
    const named = bands.map((band) => ({ ...band, name: say(`plot.band.${band.id}`) }));
    return [{ of, name: say(`plot.of.${of}`), unit: finding.unit, decimals: finding.decimals, bands: named, readings: read(of) }];
  });
  const weights = read('weight');
  const drawn = [...weights, ...vitals.flatMap((one) => one.readings)];
  const untilDays = daysShown(drawn.map(({ ageHours }) => ageHours));
  const curves = curvesOf({ sex: baby.sex, gestation }, untilDays);
  return { birthWeightGrams: baby.birthWeightGrams, weights, curves, vitals, untilDays };
}
