// Growth after birth against a second program: jsgrowup, an open-source calculator of the WHO Child Growth Standards with its
// own copy of WHO's weekly tables and its own arithmetic (ported from pygrowup). It takes no age under a month, so below that
// its tables alone are compared. It holds no size at birth; for that no kept second program was found in the registry.

import jsgrowup from 'jsgrowup';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { GrowthSex, Measure } from '../../src/clinical/size.ts';
import { asMeasured, growth, tables } from './growth-printed.ts';

/** It answers in two decimals. */
const tolerance = 0.005 + 1e-9;

const theirs = await jsgrowup.buildTablesObject(false);
/** Second argument: as WHO does beyond 3 SD. */
const calculator = new jsgrowup.Calculator(false, true, theirs);

const indicators = { weight: 'wfa', length: 'lhfa', head: 'hcfa' } as const satisfies Record<Measure, string>;
const steps = { weight: { from: 1.2, to: 9.4, by: 0.1 }, length: { from: 42, to: 72, by: 0.5 }, head: { from: 29, to: 47, by: 0.3 } };
const pairs = (['weight', 'length', 'head'] as const).flatMap((measure) => (['girl', 'boy'] as const).map((sex) => ({ measure, sex })));

/** In the middle of the first day of the week, so that rounding cannot carry it into the week before. */
const monthsAt = (week: number): number => (week * 7 + 0.5) / 30.4374;
const valuesOf = ({ from, to, by }: (typeof steps)[Measure]): number[] =>
  Array.from({ length: Math.round((to - from) / by) + 1 }, (_, i) => Number((from + i * by).toFixed(1)));

function zOf(measure: Measure, sex: GrowthSex, week: number, value: number): number {
  const size = growth.whoForAge({ measure, sex, ageDays: week * 7, value: asMeasured(measure, value) });
  if (size.kind !== 'size') throw new Error(`No reference for ${measure}, week ${week}.`);
  return size.z;
}

// It tells of every value beyond 3 SD.
beforeAll(() => void vi.spyOn(console, 'log').mockImplementation(() => {}));
afterAll(() => vi.restoreAllMocks());

describe('growth after birth and a second program', () => {
  it.each(pairs)('agree in z at every step of the scale, weeks 5 to 12: $measure of a $sex', ({ measure, sex }) => {
    const astray: string[] = [];
    let compared = 0;
    for (let week = 5; week <= 12; week++)
      for (const value of valuesOf(steps[measure])) {
        const ours = zOf(measure, sex, week, value);
        const their = calculator.zscoreForMeasurement(indicators[measure], value, monthsAt(week), sex === 'girl' ? 'F' : 'M');
        compared += 1;
        if (Math.abs(ours - their) > tolerance) astray.push(`week ${week}, ${value}: ${ours} and ${their}`);
      }
    expect(astray).toEqual([]);
    expect(compared).toBe(8 * valuesOf(steps[measure]).length);
  });

  it.each(pairs)('hold the same L, M and S, weeks 0 to 13: $measure of a $sex', ({ measure, sex }) => {
    const table = theirs[`${indicators[measure]}_${sex}s_0_13`] ?? {};
    const ours = tables.who[measure][sex];
    for (let week = 0; week <= 13; week++) {
      const their = table[String(week)];
      const row = ours.find(({ ageDays }) => ageDays === week * 7);
      expect([row?.l, row?.m, row?.s], `week ${week}`).toEqual([Number(their?.L), Number(their?.M), Number(their?.S)]);
    }
  });
});
