// The curves that a weight is drawn against, held against the tables as printed.
// Sources: WHO Child Growth Standards, Geneva 2006 (expanded tables); INTERGROWTH-21st: Villar et al., Lancet 2014;384:857-68,
// Lancet 2016;387:844-45, Lancet Glob Health 2015;3:e681-91. Copies and tolerances: tests/published/README.md.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DrawnBaby, growthCurves } from '../../src/clinical/growth-curves.ts';
import { skewTTails, skewTValueAt, zFromTails } from '../../src/clinical/skew-t.ts';
import { studentTFromUpperTail, studentTUpperTail } from '../../src/clinical/student-t.ts';
import { byGroup, growth, type PrintedRow, printedRows, tables, toleranceFor } from '../published/growth-printed.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

const { lines } = defaultProtocol;
const curvesOf = (baby: DrawnBaby, untilDays = 0) => growthCurves(tables, baby, untilDays, lines)!;
const term = { weeks: 40, days: 0 };
const columns = { '-3': 'sd3neg', '-2': 'sd2neg', '0': 'sd0', '2': 'sd2', '3': 'sd3' } as const;

const weights = (file: string, standard?: string) => printedRows(file, standard).filter(({ measure }) => measure === 'weight');
const astray = (row: PrintedRow, column: string, grams: number | undefined, slack: number): string[] =>
  grams !== undefined && Math.abs(grams / 1000 - row.number(column)) <= slack + 1e-9 ? [] : [`${row.group} ${column}: ${grams}`];

describe('weight for age, as WHO prints it', () => {
  it.each(byGroup(weights('check-values-who.csv', 'who')))('is drawn at every printed age and z: %s', (_group, rows) => {
    expect(rows.length).toBeGreaterThan(50);
    const { standard, lines: drawn } = curvesOf({ sex: rows[0]!.sex, gestation: term }, 182);
    expect(standard).toBe('who');
    const wrong = rows.flatMap((row) =>
      drawn.flatMap(({ z, points }) =>
        astray(
          row,
          columns[`${z}` as keyof typeof columns],
          points.find(({ ageDays }) => ageDays === row.number('age_days'))?.grams,
          toleranceFor(row, 'all'),
        ),
      ),
    );
    expect(wrong).toEqual([]);
  });
});

describe('growth of preterm babies, as INTERGROWTH-21st prints it', () => {
  it.each(byGroup(weights('check-values-preterm-postnatal.csv', 'preterm-postnatal')))(
    'is drawn at every printed week and z: %s',
    (_group, rows) => {
      expect(rows).toHaveLength(38);
      const { standard, lines: drawn } = curvesOf({ sex: rows[0]!.sex, gestation: { weeks: 27, days: 0 } }, 37 * 7);
      expect(standard).toBe('intergrowth-preterm-postnatal');
      const wrong = rows.flatMap((row) =>
        drawn.flatMap(({ z, points }) => {
          const ageDays = (row.number('pma_weeks') - 27) * 7;
          const column = columns[`${z}` as keyof typeof columns];
          return astray(row, column, points.find((point) => point.ageDays === ageDays)?.grams, toleranceFor(row, 'sd'));
        }),
      );
      expect(wrong).toEqual([]);
    },
  );

  it('ends with week 64, and begins with week 27 of a baby that was born earlier', () => {
    const points = curvesOf({ sex: 'girl', gestation: { weeks: 25, days: 0 } }, 400).lines[0]!.points;
    expect([points[0]?.ageDays, points.at(-1)?.ageDays]).toEqual([14, 39 * 7]);
  });
});

describe('size at birth, as INTERGROWTH-21st prints it', () => {
  it.each(byGroup(weights('check-values-size-at-birth.csv')))(
    'has its 10th, 50th and 90th centile at every printed day: %s',
    (_group, rows) => {
      const wrong = rows.flatMap((row) => {
        const gestation = { weeks: row.number('ga_weeks'), days: row.number('ga_extra_days') };
        const band = curvesOf({ sex: row.sex, gestation }).atBirth;
        const slack = toleranceFor(row, 'p');
        return [
          ...astray(row, 'p10', band?.lowGrams, slack),
          ...astray(row, 'p50', band?.medianGrams, slack),
          ...astray(row, 'p90', band?.highGrams, slack),
        ];
      });
      expect(wrong).toEqual([]);
    },
  );

  it('is read in the middle of a week whose day is not known', () => {
    const [week, day] = [{ weeks: 36 }, { weeks: 36, days: 3 }].map((gestation) => curvesOf({ sex: 'boy', gestation }).atBirth);
    expect(week).toEqual(day);
    expect(week).toMatchObject({ lowCentile: 10, highCentile: 90, standard: 'intergrowth-21st' });
  });

  it.each([{ weeks: 23, days: 6 }, { weeks: 43, days: 0 }, null])('is not drawn at %j, for which nothing was published', (gestation) => {
    expect(curvesOf({ sex: 'boy', gestation }).atBirth).toBeNull();
  });
});

describe('curves', () => {
  it.each(['not-clear', null] as const)('are not drawn for a baby whose sex is %s', (sex) => {
    expect(growthCurves(tables, { sex, gestation: term }, 42, lines)).toBeNull();
  });

  it.each([
    { gestation: { weeks: 36, days: 6 }, standard: 'intergrowth-preterm-postnatal' },
    { gestation: { weeks: 37, days: 0 }, standard: 'who' },
    { gestation: null, standard: 'who' },
  ])('of a baby of $gestation are of $standard', ({ gestation, standard }) => {
    expect(curvesOf({ sex: 'girl', gestation }, 1).standard).toBe(standard);
  });

  it('come back to their own z by the function that judges a weight, at every age and gestation', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('girl' as const, 'boy' as const),
        fc.integer({ min: 24 * 7, max: 42 * 7 }),
        fc.integer({ min: 0, max: 100 }),
        (sex, gestationDays, untilDays) => {
          const gestation = { weeks: Math.floor(gestationDays / 7), days: gestationDays % 7 };
          const { standard, lines: drawn } = curvesOf({ sex, gestation }, untilDays);
          for (const { z, points } of drawn)
            for (const { ageDays, grams: value } of points.slice(-3)) {
              const judged =
                standard === 'who'
                  ? growth.whoForAge({ measure: 'weight', sex, ageDays, value })
                  : growth.pretermGrowth({ measure: 'weight', sex, postmenstrualWeeks: (gestationDays + ageDays) / 7, value });
              expect(judged.kind === 'size' && judged.z).toBeCloseTo(z, 9);
            }
        },
      ),
      { numRuns: 60 },
    );
  });
});

it('a value of the skew t distribution comes back to its z, in every row and far out', () => {
  const rows = Object.values(tables.newborn).flatMap((perSex) => Object.values(perSex).flatMap((byDay) => [...byDay.values()]));
  fc.assert(
    fc.property(fc.constantFrom(...rows), fc.double({ min: -5, max: 5, noNaN: true }), (row, z) => {
      expect(zFromTails(skewTTails(row, skewTValueAt(row, z)))).toBeCloseTo(z, 8);
    }),
  );
});

it.each([0.5, 0.4, 0.25, 0.2, 1e-6])("the share %d above a value of Student's t comes back to itself", (share) => {
  expect(studentTUpperTail(studentTFromUpperTail(share, 17.5), 17.5)).toBeCloseTo(share, 12);
});
