import { describe, expect, it } from 'vitest';
import { readGestation } from '../../../src/dialog/readings/gestation.ts';
import { tokens } from '../../../src/dialog/readings/tokens.ts';
import { book, words } from '../first-day.ts';

const gestation = (text: string): unknown => {
  const read = readGestation(tokens(text, words), book.ranges.gestation, words);
  if (read.kind === 'refused') return read.reason.code;
  return read.kind === 'not-known' ? 'not-known' : [read.value, read.used];
};

describe('weeks of pregnancy', () => {
  it.each([
    ['39', 1],
    ['39w', 1],
    ['39wks', 1],
    ['39 weeks', 2],
    ['39/40', 1],
    ['39 3100', 1],
    ['39w 3100', 1],
  ])('%j are 39', (text, used) => {
    expect(gestation(text)).toEqual([{ weeks: 39 }, used]);
  });

  it.each([
    ['39+4', 1],
    ['39 + 4', 1],
    ['39/4', 1],
    ['39.4', 1],
    ['39,4', 1],
    ['39*4', 1],
    ['39w4d', 1],
    ['39w4', 1],
    ['39+4w', 1],
    ['39+4/7', 1],
    ['39w 4d', 2],
    ['39 weeks 4 days', 4],
    ['39w 4 days', 3],
    ['३९+४', 1],
  ])('%j are 39 and 4 days', (text, used) => {
    expect(gestation(text)).toEqual([{ weeks: 39, days: 4 }, used]);
  });

  it.each([
    ['19', 'out-of-range'],
    ['45', 'out-of-range'],
    ['390', 'out-of-range'],
    ['0430', 'not-weeks'],
    ['39+7', 'not-weeks'],
    ['39h', 'not-weeks'],
    ['39w4h', 'not-weeks'],
    ['term', 'not-weeks'],
    ['9 months', 'out-of-range'],
    ['-', 'not-known'],
  ])('%j are refused or not known: %s', (text, reason) => {
    expect(gestation(text)).toBe(reason);
  });
});
