import { describe, expect, it } from 'vitest';
import { minutesAt, outcome, sent } from './first-day.ts';

const half4 = minutesAt('2026-11-25T04:30');
const girl = { sex: 'girl', born: half4, gestation: '39', 'birth-weight': 3100 };
const vitals = { temperature: 36.8, 'respiratory-rate': 44, 'heart-rate': 132 };
const clean = { doubts: {}, refused: [] };

describe('who', () => {
  it.each([
    '1 0430 39 3100',
    'girl 0430 39 3100',
    'GIRL, 4:30, 39 weeks, 3100 g',
    '39w 3100g 5h girl',
    '3.1kg girl 39 weeks 5 h ago',
    '1 5h 39w 3 100 g',
    'girl today 0430 39 3 100',
    '0430 today girl 39w 3100',
    '39w 1 0430 3100',
    '1 04 30 39 3100',
    '1*0430*39*3100',
    '1,0430,39,3100',
    '1/0430/39/3100',
    'l O43O 39 31OO',
    'BW3100 GA39 1 0430',
    'BORN 0430 WEEKS 39 girl 3100',
    '१ ०४३० ३९ ३१००',
  ])('%j is a girl of 5 hours, 39 weeks, 3100 g', (text) => {
    expect(outcome(sent('who', text))).toEqual({ values: girl, ...clean });
  });

  it.each(['1 0430 39 3100 C77', '1 0430 39 3100 77', 'C 77 39w 1 0430 3100', 'card:77 1 0430 39 3 100', '1*0430*39*3100*77'])(
    '%j holds the card number too',
    (text) => {
      expect(outcome(sent('who', text))).toEqual({ values: { ...girl, card: '77' }, ...clean });
    },
  );

  it.each([
    ['1 - - -', { sex: 'girl', born: null, gestation: null, 'birth-weight': null }],
    ['boy not known 39 not known', { sex: 'boy', born: null, gestation: '39', 'birth-weight': null }],
    ['just now girl 39 -', { sex: 'girl', born: minutesAt('2026-11-25T09:30'), gestation: '39', 'birth-weight': null }],
    ['1 0430 24/4 900', { sex: 'girl', born: half4, gestation: '24+4', 'birth-weight': 900 }],
    ['2 24/11 0430 39+4 2900', { sex: 'boy', born: minutesAt('2026-11-24T04:30'), gestation: '39+4', 'birth-weight': 2900 }],
    ['2 900 g', { sex: 'boy', 'birth-weight': 900 }],
    ['girl 0430', { sex: 'girl', born: half4 }],
    ['1 0430 39 3100 - ', { ...girl, card: null }],
    ['39 weeks 4 days, 3,1 kg, 2, 5 h ago', { sex: 'boy', born: half4, gestation: '39+4', 'birth-weight': 3100 }],
  ])('%j is read as far as it goes', (text, values) => {
    expect(outcome(sent('who', text))).toEqual({ values, ...clean });
  });

  it('asks back what is hard to believe and takes the rest', () => {
    expect(outcome(sent('who', '1 5 39 310'))).toEqual({
      values: { sex: 'girl', gestation: '39' },
      doubts: { born: half4, 'birth-weight': 310 },
      refused: [],
    });
  });

  it('takes what can be read beside what is refused', () => {
    expect(outcome(sent('who', '1 0430 49 3100'))).toEqual({
      values: { sex: 'girl', born: half4, 'birth-weight': 3100 },
      doubts: {},
      refused: ['out-of-range'],
    });
  });

  it.each(['1 0430 39 3100 77 88', '1 2 0430 39 3100', '1 39 0430 3100'])(
    'takes nothing of %j, where a number too many may have pushed the others out of place',
    (text) => {
      expect(outcome(sent('who', text))).toMatchObject({ values: {}, doubts: {} });
      expect(sent('who', text).refusals).not.toEqual([]);
    },
  );

  it.each(['1 0430 lmp 18/2 3100', '1 lmp 18/2 0430 3100', 'lmp 18/2 1 0430 3100', '1 0430 3100 lmp 18/2'])(
    '%j holds the last period, wherever it stands',
    (text) => {
      expect(outcome(sent('who', text))).toEqual({ values: { ...girl, gestation: 'last-period=2026-02-18+180' }, ...clean });
    },
  );

  it.each(['5h 39w 3,1 1', '1 foo 20/2 0430 3100', '1 foo 39 310'])(
    'takes of %j only what says what it is, where one is refused and another hard to believe: they may be out of place',
    (text) => {
      const { refused, values, doubts } = outcome(sent('who', text)) as ReturnType<typeof outcome> & { values: object };
      expect({ refused: refused.length, doubts }).toEqual({ refused: 1, doubts: {} });
      expect(values).toEqual(text.includes('39w') ? { born: half4, gestation: '39' } : {});
    },
  );

  it('quotes a stray word back and keeps what stands before it', () => {
    expect(sent('who', '1 0430 39 3100 please')).toMatchObject({
      values: girl,
      refusals: [{ code: 'left-over', values: { text: 'please' } }],
    });
  });

  it('reads only what is still open', () => {
    expect(outcome(sent('who', '39 3100', ['gestation', 'birth-weight']))).toEqual({
      values: { gestation: '39', 'birth-weight': 3100 },
      ...clean,
    });
    expect(outcome(sent('who', '04 30', ['born']))).toEqual({ values: { born: half4 }, ...clean });
  });
});

describe('temperature, breaths and heart', () => {
  it.each([
    '36.8 44 132',
    '36,8 44 132',
    '36.8, 44, 132',
    '36.8,44,132',
    '36,8,44,132',
    '36.8*44*132',
    '36*8*44*132',
    '36.8.44.132',
    '36 8 44 132',
    '36.8 c 44 132',
    '36.8c 44/min 132/min',
    '36.8 22/30s 132',
    'T36.8 R44 P132',
    'T 36.8 R 44 P 132',
    't:36.8 r=44 p-132',
    'P132 T36.8 R44',
    '44 132 T36.8',
    'R44 36.8 132',
    'P132 36.8 44',
    'T36.8 T36.8 44 132',
    'Rr44 Pl32 T36.8',
  ])('%j are 36.8, 44 and 132', (text) => {
    expect(outcome(sent('vitals', text))).toEqual({ values: vitals, ...clean });
  });

  it.each([
    ['36*8', { temperature: 36.8 }],
    ['36.8 44', { temperature: 36.8, 'respiratory-rate': 44 }],
    ['- 44 132', { temperature: null, 'respiratory-rate': 44, 'heart-rate': 132 }],
    ['T- R44 P132', { temperature: null, 'respiratory-rate': 44, 'heart-rate': 132 }],
    ['T not known R44', { temperature: null, 'respiratory-rate': 44 }],
    ['SPO2 96 36.8 44 132', { ...vitals, 'oxygen-saturation': 96 }],
    ['SPO296 CRT 2 36.8 44 132', { ...vitals, 'oxygen-saturation': 96, 'capillary-refill': 2 }],
  ])('%j is read as far as it goes', (text, values) => {
    expect(outcome(sent('vitals', text))).toEqual({ values, ...clean });
  });

  it('asks back counts in the wrong order', () => {
    expect(outcome(sent('vitals', '36.8 132 44'))).toEqual({
      values: { temperature: 36.8 },
      doubts: { 'respiratory-rate': 44, 'heart-rate': 132 },
      refused: [],
    });
    expect(outcome(sent('vitals', '36*8*132*44'))).toEqual({
      values: { temperature: 36.8 },
      doubts: { 'respiratory-rate': 44, 'heart-rate': 132 },
      refused: [],
    });
  });

  it('believes counts that name themselves', () => {
    expect(outcome(sent('vitals', 'T36.8 R132 P44'))).toEqual({
      values: { temperature: 36.8, 'respiratory-rate': 132, 'heart-rate': 44 },
      ...clean,
    });
  });

  it.each([
    ['369 44 132', 36.9],
    ['369*44*132', 36.9],
    ['98.4 44 132', 36.9],
  ])('asks back the temperature of %j as %j', (text, temperature) => {
    expect(outcome(sent('vitals', text))).toEqual({
      values: { 'respiratory-rate': 44, 'heart-rate': 132 },
      doubts: { temperature },
      refused: [],
    });
  });

  it.each(['36*44', '36*8*44', '36*8*44*999', '36.8 44 132 77', '36 8 44 132 77'])(
    'takes nothing of %j, which can be cut in more ways than one or in none',
    (text) => {
      expect(outcome(sent('vitals', text))).toMatchObject({ values: {}, doubts: {} });
      expect(sent('vitals', text).refusals).toHaveLength(1);
    },
  );

  it.each([
    ['36.8 44 999', { temperature: 36.8, 'respiratory-rate': 44 }, 'out-of-range'],
    ['36.8*44*999', { temperature: 36.8, 'respiratory-rate': 44 }, 'out-of-range'],
    ['36.8 29/30s 132', { temperature: 36.8, 'heart-rate': 132 }, 'full-minute'],
    ['T999 44 132', { 'respiratory-rate': 44, 'heart-rate': 132 }, 'out-of-range'],
    ['36.8 44 132 T', vitals, 'left-over'],
    ['T36.8 R44 P', { temperature: 36.8, 'respiratory-rate': 44 }, 'not-a-number'],
  ])('says what is wrong in %j and takes the rest', (text, values, reason) => {
    expect(outcome(sent('vitals', text))).toMatchObject({ values, doubts: {}, refused: expect.arrayContaining([reason]) });
  });

  it('takes neither of two different values under one label', () => {
    expect(sent('vitals', 'T36.8 R44 T37')).toEqual({
      values: { 'respiratory-rate': 44 },
      doubts: {},
      refusals: [{ code: 'one-of-two', values: { one: 't36.8', two: 't37' } }],
    });
  });

  it('quotes no more than a text can hold', () => {
    const [refusal] = sent('vitals', 'x'.repeat(500)).refusals;
    expect(String(refusal?.values.text)).toHaveLength(20);
  });
});

describe('a region', () => {
  it('takes labelled values sent along with its digits', () => {
    expect(sent('breathing-colour', '13 T36.8')).toEqual({
      values: { temperature: 36.8 },
      marks: ['chest-indrawing=severe', 'grunting'],
      doubts: {},
      refusals: [],
    });
  });

  it('is left unanswered by labelled values alone', () => {
    expect(sent('breathing-colour', 'T36.8')).toEqual({ values: { temperature: 36.8 }, doubts: {}, refusals: [] });
  });

  it('is passed when it was not looked at', () => {
    expect(sent('breathing-colour', '-')).toEqual({ values: {}, passed: true, doubts: {}, refusals: [] });
  });

  it('refuses two options of one finding, by their digits, except where the furthest holds', () => {
    expect(sent('breathing-colour', '12').refusals).toEqual([{ code: 'one-of-two', values: { one: '1', two: '2' } }]);
    expect(sent('yellow', '12').marks).toEqual(['yellow-reach=face', 'yellow-reach=trunk']);
  });
});

describe('a second count', () => {
  it('stands for itself when it cannot be had', () => {
    for (const text of ['-', 'R-', 'R not known']) {
      expect(outcome(sent('breaths-again', text))).toEqual({
        values: { 'respiratory-rate': null, 'second-count-not-possible': true },
        ...clean,
      });
    }
  });

  it('is read with or without its label, and one at a time', () => {
    expect(outcome(sent('breaths-again', '66'))).toEqual({ values: { 'respiratory-rate': 66 }, ...clean });
    expect(outcome(sent('breaths-again', 'R66'))).toEqual({ values: { 'respiratory-rate': 66 }, ...clean });
    expect(outcome(sent('breaths-again', '64 66'))).toEqual({ values: {}, doubts: {}, refused: ['left-over'] });
  });
});

describe('a value that cannot be had', () => {
  it('takes the safer reading that the flow gives it', () => {
    expect(outcome(sent('waters', '-'))).toEqual({
      values: { 'waters-broken-hours': null, 'waters-broken-long-hours-not-known': true },
      ...clean,
    });
    expect(outcome(sent('sugar', '-'))).toEqual({ values: { glucose: null, 'no-glucose-test': true }, ...clean });
    expect(outcome(sent('sugar', 'SUGAR -'))).toEqual({ values: { glucose: null, 'no-glucose-test': true }, ...clean });
  });
});
