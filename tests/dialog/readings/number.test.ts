import { describe, expect, it } from 'vitest';
import type { NumberFinding } from '../../../src/clinical/protocol.ts';
import { readNumber } from '../../../src/dialog/readings/number.ts';
import { tokens } from '../../../src/dialog/readings/tokens.ts';
import { readWeight } from '../../../src/dialog/readings/weight.ts';
import type { Read } from '../../../src/dialog/readings/words.ts';
import { book, findings, words } from '../first-day.ts';

const shown = (read: Read<number>): unknown =>
  read.kind === 'refused' ? read.reason.code : read.kind === 'not-known' ? 'not-known' : [read.kind, read.value, read.used];
const number = (of: string, text: string): unknown => shown(readNumber(tokens(text, words), findings.get(of) as NumberFinding, words));
const weight = (text: string): unknown => shown(readWeight(tokens(text, words), book.ranges.weight, words));

describe('a temperature', () => {
  it.each(['36.8', '36,8', '36.8c', '36.8 c', '36.8C', '36,8 °C', '36*8', '36·8', '36.80', '३६.८', '٣٦٫٨'])('%j is 36.8', (text) => {
    expect(number('temperature', text)).toEqual(['read', 36.8, text.includes(' ') ? 2 : 1]);
  });

  it.each([
    ['98.4F', ['read', 36.9, 1]],
    ['98.4 f', ['read', 36.9, 2]],
    ['98F', ['read', 36.7, 1]],
    ['109.4F', ['read', 43, 1]],
    ['36.O', ['read', 36, 1]],
    ['36.45', ['read', 36.5, 1]],
    ['37', ['read', 37, 1]],
  ])('%j is %j', (text, read) => {
    expect(number('temperature', text)).toEqual(read);
  });

  it.each([
    ['369', 36.9],
    ['98.4', 36.9],
    ['98', 36.7],
    ['104', 40],
    ['430', 43],
  ])('%j is asked back as %j', (text, value) => {
    expect(number('temperature', text)).toEqual(['doubt', value, 1]);
  });

  it.each([
    ['984', 'out-of-range'],
    ['3.6', 'out-of-range'],
    ['36.8F', 'out-of-range'],
    ['12', 'out-of-range'],
    ['-36.8', 'not-a-number'],
    ['36.8kg', 'not-a-number'],
    ['36*855', 'not-a-number'],
    ['36..8', 'not-a-number'],
    ['warm', 'not-a-number'],
    ['36.8/30s', 'not-a-number'],
    ['-', 'not-known'],
    ['not known', 'not-known'],
    ['nk', 'not-known'],
  ])('%j is refused or not known: %j', (text, reason) => {
    expect(number('temperature', text)).toBe(reason);
  });
});

describe('a count', () => {
  it.each([
    ['44', 44],
    ['44/min', 44],
    ['44 / min', 44],
    ['44/60s', 44],
    ['44/60', 44],
    ['22/30s', 44],
    ['22/30 s', 44],
    ['22/30', 44],
    ['31/30s', 62],
    ['0', 0],
    ['O', 0],
  ])('of breaths, %j, is %j', (text, value) => {
    expect(number('respiratory-rate', text)).toEqual(['read', value, text === '22/30 s' ? 2 : 1]);
  });

  // The bands of the protocol that ships: fast from 60, normal from 30, slow from 20.
  it.each(['29/30s', '30/30s', '15/30s', '14/30s', '10/30s', '11/15s'])(
    '%j is asked for a full minute, for one breath could change what it means',
    (text) => {
      expect(number('respiratory-rate', text)).toBe('full-minute');
    },
  );

  it.each([
    ['44.5', 'whole-number'],
    ['44*132', 'not-a-number'],
    ['151', 'out-of-range'],
    ['80/30s', 'out-of-range'],
    ['22/30kg', 'not-a-number'],
    ['44bpm', 'not-a-number'],
  ])('%j is refused: %s', (text, reason) => {
    expect(number('respiratory-rate', text)).toBe(reason);
  });
});

describe('a number with a unit of its own', () => {
  it.each([
    ['waters-broken-hours', '20', 20],
    ['waters-broken-hours', '20h', 20],
    ['waters-broken-hours', '20 hours', 20],
    ['waters-broken-hours', '2d', 48],
    ['waters-broken-hours', '90 min', 1.5],
    ['bag-and-mask-minutes', '3 min', 3],
    ['dimple-size', '4mm', 4],
    ['dimple-distance', '25mm', 2.5],
    ['dimple-distance', '2.5 cm', 2.5],
    ['dimple-distance', '.5', 0.5],
    ['capillary-refill', '3s', 3],
    ['oxygen-saturation', '96%', 96],
    ['glucose', '2.6 mmol/L', 2.6],
    ['pustule-count', '12', 12],
  ])('%s %j is %j', (of, text, value) => {
    expect(number(of, text)).toEqual(['read', value, /\d \D/.test(text) ? 2 : 1]);
  });

  it('is not rounded across a limit when it is not judged rounded', () => {
    expect(number('dimple-distance', '2.54')).toEqual(['read', 2.54, 1]);
  });

  it('is asked back when a lost point would hide a low sugar, and believed with its point', () => {
    expect(number('glucose', '18')).toEqual(['doubt', 1.8, 1]);
    expect(number('glucose', '18.0')).toEqual(['read', 18, 1]);
    expect(number('glucose', '5')).toEqual(['read', 5, 1]);
  });

  it('is refused when it could be another unit too: 45 may be 4.5 mmol/L or 45 mg/dL', () => {
    expect(number('glucose', '45')).toBe('out-of-range');
  });
});

describe('a weight', () => {
  it.each([
    ['3100', 1],
    ['3100g', 1],
    ['3100 g', 2],
    ['3.1kg', 1],
    ['3,1 kg', 2],
    ['3.1', 1],
    ['3,1', 1],
    ['3*1', 1],
    ['3.100', 1],
    ['3,100', 1],
    ['3.100g', 1],
    ['3 100', 2],
    ['3 100 g', 3],
    ['3 100g', 2],
    ['31OO', 1],
    ['٣١٠٠', 1],
  ])('%j is 3100 g', (text, used) => {
    expect(weight(text)).toEqual(['read', 3100, used]);
    expect(weight(`${text} 77`)).toEqual(['read', 3100, used]);
  });

  it.each([
    ['850', 850],
    ['3kg', 3000],
    ['2,45', 2450],
    ['2.875', 2875],
  ])('%j is %j g', (text, grams) => {
    expect(weight(text)).toEqual(['read', grams, 1]);
  });

  it.each([
    ['310', 310],
    ['3', 3000],
    ['480g', 480],
    ['0.31', 310],
    ['3.1g', 3100],
    ['3100kg', 3100],
  ])('%j is asked back as %j g', (text, grams) => {
    expect(weight(text)).toEqual(['doubt', grams, 1]);
  });

  it.each([
    ['31', 'out-of-range'],
    ['299', 'out-of-range'],
    ['31000', 'out-of-range'],
    ['0', 'out-of-range'],
    ['3100/30s', 'not-a-number'],
    ['3100h', 'not-a-number'],
    ['big', 'not-a-number'],
    ['-', 'not-known'],
  ])('%j is refused or not known: %s', (text, reason) => {
    expect(weight(text)).toBe(reason);
  });
});
