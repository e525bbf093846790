// What every test of one term means: the only place that compares a value. Unknown is not found.
// Next: test-kinds.ts (the shapes), readings.ts and bands.ts, condition.ts (tests joined).

import { bandOf, isPast } from './bands.ts';
import type { Ground, Judge } from './judge.ts';
import type { Band, NumberLine } from './number-line.ts';
import { fall, pick, readingsOf, standing } from './readings.ts';
import type { Comparator, Test } from './test-kinds.ts';
import { ageTerm, assumedNormal, isKnown, type Value } from './value.ts';

const no = (): boolean => false;

export function judgeTest<S>(test: Test, ground: Ground<S>): Judge<S> {
  const { term } = test;
  const read = ground.read(term);
  const show = ground.show(term);
  const restsOnAge = ground.restsOnAge(term);
  const because = (limit: (source: S) => string | undefined, value?: (source: S) => unknown): Judge<S>['explain'] => {
    return (source, reasons) => {
      const shown = show(source);
      const text = limit(source);
      const reason = { finding: shown.finding, value: value ? value(source) : shown.value };
      reasons.push(text === undefined ? reason : { finding: reason.finding, value: reason.value, limit: text });
    };
  };
  const simple = (holds: (source: S) => boolean): Judge<S> => ({ holds, explain: because(() => undefined), restsOnAge: no });

  switch (test.kind) {
    case 'seen':
      return simple((source) => read(source) === true);
    case 'is': {
      const options: readonly Value[] = test.takesNormal ? [...test.options, assumedNormal] : test.options;
      const [only] = options;
      return simple(options.length === 1 ? (source) => read(source) === only : (source) => options.includes(read(source)));
    }
    case 'known':
      return simple((source) => isKnown(read(source)));
    case 'absent':
      return simple((source) => {
        const value = read(source);
        return value === false || value === assumedNormal;
      });
    case 'has-reading':
      return simple((source) => readingsOf(read(source)).length >= test.atLeast);
    case 'readings-fall':
      return {
        holds: (source) => fall(readingsOf(read(source))),
        explain: because(
          () => undefined,
          (source) => readingsOf(read(source)),
        ),
        restsOnAge: no,
      };
    case 'in-band':
    case 'readings-in-band':
      return judgeBands(test, read, ground.bandsOf(test.finding), because, restsOnAge);
    case 'beside-line': {
      const line = ground.lineOf(test.limit);
      const comparator = test.side === 'past' ? (line.over ? '>' : '>=') : line.over ? '<=' : '<';
      const shown = `${comparator} ${line.value}`;
      const holds = (value: number): boolean => isPast(value, line) === (test.side === 'past');
      return judgeNumber(
        term,
        read,
        holds,
        because(() => shown),
        restsOnAge,
      );
    }
    case 'compared': {
      const compare = comparators[test.comparator];
      if ('number' in test.to) {
        const { number } = test.to;
        const { which } = test;
        const shown = `${test.comparator} ${shortNumber(number)}`;
        const readOne = which === undefined ? read : (source: S): Value => pick(readingsOf(read(source)), which);
        return judgeNumber(
          term,
          readOne,
          (value) => compare(value, number),
          because(() => shown),
          restsOnAge,
        );
      }
      const readOther = ground.read(test.to.term);
      return {
        holds: (source) => {
          const value = read(source);
          const other = readOther(source);
          return typeof value === 'number' && typeof other === 'number' && compare(value, other);
        },
        explain: because((source) => `${test.comparator} ${String(readOther(source))}`),
        restsOnAge: ground.restsOnAge(test.to.term),
      };
    }
  }
}

const comparators: Record<Comparator, (value: number, to: number) => boolean> = {
  '<': (value, to) => value < to,
  '<=': (value, to) => value <= to,
  '>': (value, to) => value > to,
  '>=': (value, to) => value >= to,
};

function judgeNumber<S>(
  term: string,
  read: (source: S) => Value,
  holds: (value: number) => boolean,
  explain: Judge<S>['explain'],
  restsOnAge: Judge<S>['restsOnAge'],
): Judge<S> {
  const judged = (source: S): boolean => {
    const value = read(source);
    return typeof value === 'number' && holds(value);
  };
  if (term !== ageTerm) return { holds: judged, explain, restsOnAge };
  const isUnknown = (source: S): boolean => typeof read(source) !== 'number';
  return {
    holds: (source) => isUnknown(source) || judged(source),
    explain: (source, because) => {
      if (!isUnknown(source)) explain(source, because);
    },
    restsOnAge: isUnknown,
  };
}

type BandTest = Extract<Test, { kind: 'in-band' | 'readings-in-band' }>;
type Reasons<S> = (limit: (source: S) => string | undefined, value: (source: S) => unknown) => Judge<S>['explain'];

function judgeBands<S>(
  test: BandTest,
  read: (source: S) => Value,
  bands: readonly Band[],
  because: Reasons<S>,
  restsOnAge: Judge<S>['restsOnAge'],
): Judge<S> {
  const { finding } = test;
  const wanted: readonly (Band | undefined)[] = bands.filter((band) => test.bands.includes(band.id));
  const isWanted = (reading: number): boolean => wanted.includes(bandOf(reading, bands));
  const limits = new Map(bands.map((band) => [band, limitText(band, finding, bands)]));
  const limitOf = (value: number | undefined): string | undefined => {
    const band = value === undefined ? undefined : bandOf(value, bands);
    return band === undefined ? undefined : limits.get(band);
  };
  if (test.kind === 'readings-in-band') {
    const found = (source: S): readonly number[] => readingsOf(read(source)).filter(isWanted);
    const last = (source: S): number | undefined => found(source).at(-1);
    return {
      holds: (source) => found(source).length >= test.atLeast,
      explain: because((source) => limitOf(last(source)), found),
      restsOnAge,
    };
  }
  const takesNormal = wanted.some((band) => band?.routine);
  const meant = (source: S): readonly number[] => {
    const readings = readingsOf(read(source));
    if (test.which === 'standing') return standing(readings, finding, bands);
    const one = pick(readings, test.which);
    return one === undefined ? [] : [one];
  };
  const deciding = (source: S): number | undefined => meant(source).findLast(isWanted);
  return {
    holds: (source) => {
      const value = read(source);
      if (value === null || value === undefined) return false;
      if (value === assumedNormal) return takesNormal;
      return typeof value === 'number'
        ? isWanted(value) && test.which !== 'second' && test.which !== 'third'
        : meant(source).some(isWanted);
    },
    explain: because((source) => limitOf(deciding(source)), deciding),
    restsOnAge,
  };
}

/** The line that separates the band from the normal ones, such as `< 35.5`; none for a normal band. */
function limitText(band: Band, finding: NumberLine, bands: readonly Band[]): string | undefined {
  if (band.routine) return undefined;
  const isBelowNormal = bands.indexOf(band) < bands.findIndex((one) => one.routine);
  if (isBelowNormal) return `${band.closedTo ? '<=' : '<'} ${band.to.toFixed(finding.decimals)}`;
  return `${band.openFrom ? '>' : '>='} ${band.from.toFixed(finding.decimals)}`;
}

const shortNumber = (value: number): string => String(Number(value.toFixed(2)));
