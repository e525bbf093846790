// Small and large for gestation against the 10th and 90th centiles of the reference sheet's rows, read in the middle of the
// week. Source: INTERGROWTH-21st percentile tables at week + 3 days (33 weeks and later: Lancet 2014;384:857-68; earlier:
// Lancet 2016;387:844-45).

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol, wellBut } from '../support/default-protocol.ts';

/** Printed centiles lie up to 15 g from the published parameters, and are printed to 10 g. */
const printedWithinGrams = 20;

const [, ...lines] = readFileSync(new URL('check-values-size-rows.csv', import.meta.url), 'utf8')
  .trimEnd()
  .split('\n');
const printed = lines.flatMap((line) => {
  const [row = '', week, girlLow, girlHigh, boyLow, boyHigh] = line.split(',');
  return [
    { row, sex: 'girl', weeks: Number(week), low: Number(girlLow) * 1000, high: Number(girlHigh) * 1000 },
    { row, sex: 'boy', weeks: Number(week), low: Number(boyLow) * 1000, high: Number(boyHigh) * 1000 },
  ] as const;
});

function sizeOf({ sex, weeks }: { sex: 'girl' | 'boy'; weeks: number }, birthWeightGrams: number): string {
  const { computed } = interpret(
    defaultProtocol,
    wellBut({}, { sex, gestation: { weeks }, birthWeightGrams: Math.round(birthWeightGrams) }),
  );
  return (computed.sizeForGestation as { class: string }).class;
}

describe('size for gestation', () => {
  it('is held against 19 weeks of both sexes', () => {
    expect(printed).toHaveLength(38);
  });

  it.each(printed)('turns small and large at the printed centiles: $row, $sex', ({ low, high, ...baby }) => {
    expect(
      [low - printedWithinGrams, low + printedWithinGrams, high - printedWithinGrams, high + printedWithinGrams].map((grams) =>
        sizeOf(baby, grams),
      ),
    ).toEqual(['small', 'appropriate', 'appropriate', 'large']);
  });
});
