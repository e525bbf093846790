// The baby of a reference case that is written on one line: well but for what is said. Girl, 30 h, 39 weeks and 3 days,
// 3200 g at birth, unless the line says otherwise; null: not known.

export interface Babies {
  readonly findings: Readonly<Record<string, unknown>>;
  readonly age?: number | null;
  readonly sex?: string;
  readonly weeks?: number | null;
  readonly days?: number;
  readonly 'birth-weight'?: number | null;
  readonly weight?: number | null;
  readonly switches?: Readonly<Record<string, string>>;
}

/** A case in the shape that `assess` reads. */
export function babyOf(line: Babies): unknown {
  const weeks = line.weeks === undefined ? 39 : line.weeks;
  const days = line.days ?? (line.weeks === undefined ? 3 : undefined);
  return {
    ageHours: line.age === undefined ? 30 : line.age,
    sex: line.sex ?? 'girl',
    gestation: weeks === null ? null : { weeks, ...(days === undefined ? {} : { days }) },
    birthWeightGrams: line['birth-weight'] === undefined ? 3200 : line['birth-weight'],
    weightGrams: line.weight ?? null,
    unlisted: 'normal',
    findings: line.findings,
    ...(line.switches ? { switches: line.switches } : {}),
  };
}
