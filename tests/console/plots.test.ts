// Plots as the server draws them: points where their values belong, gaps where there is none, and a table that says the same.
// The baby is invented; its limits are those of the shipped protocol, its lines the published ones.

import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { bandsUnder } from '../../src/clinical/bands.ts';
import { growthCurves } from '../../src/clinical/growth-curves.ts';
import type { NumberFinding } from '../../src/clinical/protocol.ts';
import { ageScale, ageText, daysShown } from '../../src/console/plots/age-axis.tsx';
import { type Course, CoursePlot } from '../../src/console/plots/course-plot.tsx';
import { type Figured, FigurePlot } from '../../src/console/plots/figure-plot.tsx';
import type { Say } from '../../src/console/plots/frame.tsx';
import { spread, withRoom } from '../../src/console/plots/spread.ts';
import type { Vital } from '../../src/console/plots/vital-plot.tsx';
import { tables } from '../published/growth-printed.ts';
import { defaultProtocol as protocol } from '../support/default-protocol.ts';

/** Words that show their key and what was handed over. */
const say: Say = (key, values = {}) => [key, ...Object.entries(values).map(([name, value]) => `${name}=${value}`)].join(' ');
const read = (...readings: readonly (readonly [number | null, number])[]) =>
  readings.map(([ageHours, value]) => ({ at: 0, ageHours, value }));

function vital(of: string, ...readings: readonly (readonly [number | null, number])[]): Vital {
  const finding = protocol.findingById.get(of) as NumberFinding;
  const bands = bandsUnder(finding, protocol.limits, () => undefined).map((band) => ({ ...band, name: band.id }));
  return { of, name: of, unit: finding.unit, decimals: finding.decimals, bands, readings: read(...readings) };
}

function course(changes: Partial<Course> = {}): string {
  const untilDays = changes.untilDays ?? 7;
  const curves = growthCurves(tables, { sex: 'girl', gestation: { weeks: 39, days: 2 } }, untilDays, protocol.lines);
  return renderToString(
    h(CoursePlot, { id: 'c', birthWeightGrams: 3120, weights: read([72, 2890]), curves, vitals: [], untilDays, say, ...changes }),
  );
}

const figure = (changes: Partial<Figured> & Pick<Figured, 'series'>): string =>
  renderToString(h(FigurePlot, { id: 'f', kind: 'bars', unit: 'count', say, ...changes }));
const weeksOf = (...values: readonly (number | null)[]) => values.map((value, place) => ({ week: `2026-W${40 + place}`, value }));

const all = (html: string, pattern: RegExp): string[][] => [...html.matchAll(pattern)].map((found) => found.slice(1).map(String));
const numbers = (html: string, pattern: RegExp): number[][] => all(html, pattern).map((found) => found.map(Number));
const circles = (html: string) => numbers(html, /<circle class="plot-point" cx="([\d.]+)" cy="([\d.]+)"/g);
const tablesOf = (html: string): string[][][] =>
  all(html, /<tbody>(.*?)<\/tbody>/gs).map(([body = '']) =>
    all(body, /<tr>(.*?)<\/tr>/gs).map(([row = '']) => all(row, /<t[hd][^>]*>(.*?)<\/t[hd]>/gs).map(([cell = '']) => cell)),
  );

describe('a course', () => {
  it('puts a reading at its age and its value, between the limits that are drawn', () => {
    const html = course({ vitals: [vital('temperature', [42, 37])] });
    const [[x = 0, y = 0] = []] = circles(html).slice(-1);
    expect(x).toBeCloseTo(ageScale(7)(1.75), 6);
    // 36.5 to 37.5 is normal, and 37.0 lies in its middle.
    const [[above = 0, tall = 0] = []] = numbers(html, /class="plot-normal"[^>]* y="([\d.]+)" height="([\d.]+)"/g);
    expect(y).toBeCloseTo(above + tall / 2, 6);
    expect(all(html, /text-anchor="end">(3[67]\.\d)</g).flat()).toEqual(expect.arrayContaining(['36.5', '37.5']));
  });

  it('gives a reading that is not normal another shape, on the very limits too', () => {
    const shapes = (value: number) => course({ vitals: [vital('temperature', [42, value])] }).split('plot-outside').length - 1;
    expect([36.4, 36.5, 37.5, 37.6].map(shapes)).toEqual([1, 0, 0, 1]);
  });

  it('draws the limits where a switch has moved them', () => {
    const cold = protocol.findingById.get('temperature') as NumberFinding;
    const bands = bandsUnder(cold, protocol.limits, (id) => (id === 'cold-grades' ? 'no-mild-band' : undefined));
    const html = course({
      vitals: [{ ...vital('temperature', [42, 36.1]), bands: bands.map((band) => ({ ...band, name: band.id })) }],
    });
    expect(html).not.toContain('mildly-low');
    expect(tablesOf(html).at(-1)).toEqual([['plot.age-hours hours=42', '36.1', 'low']]);
  });

  it('shows every limit and reading where a reading lies far out', () => {
    const html = course({ birthWeightGrams: null, weights: [], vitals: [vital('temperature', [1, 26], [2, 31.5], [30, 42.5])] });
    const heights = numbers(html, /translate\([\d.]+,([\d.]+)\)/g).flat();
    expect(heights.every((y) => y >= 10 && y <= 128)).toBe(true);
    expect(
      tablesOf(html)
        .at(-1)
        ?.map(([, value, band]) => [value, band]),
    ).toEqual([
      ['26.0', 'severely-low'],
      ['31.5', 'severely-low'],
      ['42.5', 'high'],
    ]);
  });

  it('has a table with each weight and where the lines lie on that day, as WHO prints them', () => {
    // Day 3 as in WHO's expanded table, weight for age, girls (tests/published/check-values-who.csv).
    expect(tablesOf(course())[0]).toEqual([
      ['plot.at-birth', '3120', '2033', '2395', '3232', '4230', '4793'],
      ['plot.age-days days=3 hours=0', '2890', '2017', '2378', '3232', '4280', '4885'],
    ]);
    expect(tablesOf(course({ curves: null }))[0]?.[0]).toEqual(['plot.at-birth', '3120']);
  });

  it('names its standards, and says why there are no lines where the sex is not known', () => {
    expect(course()).toContain('standard=plot.standard.who');
    expect(course()).toContain('low=10 high=90 standard=plot.standard.intergrowth-21st');
    const unknown = course({ curves: null });
    expect(unknown).toContain('plot.no-curves');
    expect(unknown).not.toContain('plot-standard');
  });

  it('keeps a reading without an age in the table and out of the drawing, and says so', () => {
    const html = course({ birthWeightGrams: null, weights: read([null, 2890]), vitals: [vital('temperature', [null, 36.9], [20, 37])] });
    expect(html.split('<svg').length - 1).toBe(1);
    expect(circles(html)).toHaveLength(1);
    expect(html.split('plot.without-age count=1').length - 1).toBe(2);
    expect(tablesOf(html)[1]).toEqual([
      ['plot.age-not-known', '36.9', 'normal'],
      ['plot.age-hours hours=20', '37.0', 'normal'],
    ]);
  });

  it('says of what was never read that nothing was', () => {
    const html = course({ birthWeightGrams: null, weights: [], vitals: [vital('heart-rate')] });
    expect(html.split('plot.no-readings').length - 1).toBe(2);
    expect(html).not.toContain('<svg');
  });

  it('is told in words to those who do not see it, under ids of its own', () => {
    const html = course({ vitals: [vital('temperature', [42, 36.1]), vital('heart-rate', [42, 140])] });
    const described = all(html, /role="img" aria-labelledby="(\S+) (\S+)"/g);
    expect(described).toHaveLength(3);
    const ids = all(html, / id="([^"]+)"/g).flat();
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toEqual(expect.arrayContaining(described.flat()));
    expect(html).toContain('plot.describe-vital count=1 lowest=36.1 highest=36.1 last=36.1 band=mildly-low');
  });

  it.each([
    [[], 3],
    [[72], 3],
    [[73, null], 7],
    [[42 * 24], 42],
    [[200 * 24 + 1], 201],
  ])('of readings at %j hours is drawn over %d days', (ages, days) => {
    expect(daysShown(ages)).toBe(days);
  });

  it.each([
    [0, 'plot.age-hours hours=0'],
    [71.9, 'plot.age-hours hours=71'],
    [72, 'plot.age-days days=3 hours=0'],
    [100.5, 'plot.age-days days=4 hours=4'],
    [null, 'plot.age-not-known'],
  ])('writes an age of %s hours as %s', (hours, text) => {
    expect(ageText(hours, say)).toBe(text);
  });
});

describe('a figure by week', () => {
  const bars = (html: string) => numbers(html, /class="plot-bar" x="([\d.]+)" width="[\d.]+" y="([\d.]+)" height="([\d.]+)"/g);

  it('has a bar as tall as its value, a line on the ground for 0, and no bar where there is no value', () => {
    const html = figure({ series: [{ place: 'Hill', weeks: weeksOf(40, 20, 0, null) }] });
    const heights = bars(html).map(([, , tall]) => tall);
    expect(heights).toEqual([110, 55, 1.5]);
    expect(html.split('class="plot-gap"').length - 1).toBe(1);
    expect(html).toContain('plot.gap');
    expect(tablesOf(html)).toEqual([
      [
        ['2026-W40', 'plot.value.count value=40'],
        ['2026-W41', 'plot.value.count value=20'],
        ['2026-W42', 'plot.value.count value=0'],
        ['2026-W43', 'plot.no-value'],
      ],
    ]);
  });

  it('draws a line that breaks at a gap, and a point for each value', () => {
    const html = figure({ kind: 'line', unit: 'share', series: [{ place: 'Hill', weeks: weeksOf(0.5, 0.545, null, 1) }] });
    const [[path = ''] = []] = all(html, /class="plot-course" d="([^"]*)"/g);
    expect(path.split('M').length - 1).toBe(2);
    expect(circles(html).map(([, y]) => y)).toEqual([73, 68.05, 18].map((y) => expect.closeTo(y, 6)));
    expect(tablesOf(html)[0]?.map(([, value]) => value)).toEqual([
      ...['plot.value.share value=50', 'plot.value.share value=54.5', 'plot.no-value', 'plot.value.share value=100'],
    ]);
  });

  it('has one scale for all facilities, so that they can be held beside one another', () => {
    const html = figure({
      series: [
        { place: 'Hill', weeks: weeksOf(40) },
        { place: 'River', weeks: weeksOf(10) },
      ],
    });
    expect(bars(html).map(([, , tall]) => tall)).toEqual([110, 27.5]);
    expect(all(html, /<title id="[^"]+">([^<]+)</g).flat()).toEqual(['Hill', 'River']);
  });

  it('says of weeks without any value that there is none', () => {
    const html = figure({ kind: 'line', series: [{ place: 'Hill', weeks: weeksOf(null, null) }] });
    expect(html).toContain('plot.describe-nothing weeks=2');
    expect(circles(html)).toEqual([]);
  });

  it('names no more weeks than can be read, and writes no values over one another', () => {
    const html = figure({ series: [{ place: 'Hill', weeks: weeksOf(...Array.from({ length: 20 }, (_, n) => n)) }] });
    expect(all(html, /text-anchor="middle">(W\d\d)</g).flat()).toEqual(['W40', 'W43', 'W46', 'W49', 'W52', 'W55', 'W58']);
    expect(html).not.toContain('plot-value"');
  });
});

it('plots carry no colour and no style of their own: a strict policy would refuse them, and dark would not hold', () => {
  const html = course({ vitals: [vital('temperature', [42, 36.1])] }) + figure({ series: [{ place: 'Hill', weeks: weeksOf(1, null) }] });
  expect(html).not.toMatch(/ (style|fill|stroke|color)=/);
});

it('words beside a plot are kept apart', () => {
  expect(spread([100, 98, 50], 11)).toEqual([100, 89, 50]);
  expect(withRoom([{ y: 50 }, { y: 55 }, { y: 62 }], 12)).toEqual([{ y: 50 }, { y: 62 }]);
});
