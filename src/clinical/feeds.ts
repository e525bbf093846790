// How much milk a baby needs who is not breastfed, by weight and day of life. The volumes are data (feeds.yaml).

import { ageParts } from './age.ts';
import type { FeedTable } from './care-rules.ts';

export interface FeedVolume {
  readonly mlPerFeed: number;
  readonly feedsPerDay: number;
  readonly mlPerDay: number;
  readonly row: string;
}

const gramsPerKilogram = 1000;

/** Whole millilitres, rounded down; null where the table has no line for the weight. */
export function feedVolume(table: FeedTable, weightGrams: number, ageHours: number): FeedVolume | null {
  const volumes = table.volumes.find((one) => weightGrams >= one.fromGrams);
  if (volumes === undefined) return null;
  const day = ageParts(ageHours).dayOfLife;
  const onDay = (days: readonly number[]): number => days[Math.min(day, days.length) - 1] ?? 0;
  const { feedsPerDay, row } = volumes;
  if (volumes.mlPerKgDay !== undefined) {
    const mlPerDay = Math.floor((onDay(volumes.mlPerKgDay) * weightGrams) / gramsPerKilogram);
    return { mlPerFeed: Math.floor(mlPerDay / feedsPerDay), feedsPerDay, mlPerDay, row };
  }
  const mlPerFeed = Math.floor(onDay(volumes.mlPerFeed ?? []));
  return { mlPerFeed, feedsPerDay, mlPerDay: mlPerFeed * feedsPerDay, row };
}
