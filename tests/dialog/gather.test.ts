import { describe, expect, it } from 'vitest';
import type { FindingValue } from '../../src/clinical/protocol.ts';
import { addAnswer, beginExamination } from '../../src/dialog/examination.ts';
import type { MarkStep } from '../../src/dialog/flow.ts';
import { conflictOf, gather, setsOfRetiredMark, writtenCase } from '../../src/dialog/gather.ts';
import type { Examination } from '../../src/dialog/session.ts';
import { findings, flow, minutesAt, now, stepOf } from './first-day.ts';

type Given = { readonly marks?: readonly string[]; readonly passed?: true; readonly values?: Readonly<Record<string, FindingValue>> };

const answered = (...answers: readonly (readonly [string, Given])[]): Examination =>
  answers.reduce((examination, [id, given]) => addAnswer(examination, stepOf(id), given), beginExamination(flow.id, '+254700555101', now));
const known = (...answers: readonly (readonly [string, Given])[]) => gather([flow], answered(...answers), findings, now).known;

describe('a region that was answered', () => {
  it('says that what was not marked is normal, and only that', () => {
    const of = known(['breathing-colour', { marks: ['grunting'] }]);
    expect(of.get('grunting')).toBe(true);
    expect(of.get('nasal-flaring')).toBe(false);
    expect(of.get('chest-indrawing')).toBe('none');
    expect(of.get('jittery')).toBeUndefined();
  });

  it('says the same of the signs behind 9, unless they were opened', () => {
    expect(known(['breathing-colour', { marks: [] }]).get('heart-murmur')).toBe(false);
    const opened = gather([flow], answered(['breathing-colour', { marks: ['breathing-colour-more'] }]), findings, now);
    expect(opened.known.get('heart-murmur')).toBeUndefined();
    expect([...opened.opened]).toEqual(['breathing-colour-more']);
    expect(opened.case.findings.entries().map(([of]) => of)).not.toContain('breathing-colour-more');
  });

  it('gives a mark that was not made what the flow says instead', () => {
    expect(known(['skin', { marks: [] }]).get('pustule-count')).toBe(0);
    const opened = gather([flow], answered(['skin', { marks: ['then:pus-spots'] }]), findings, now);
    expect(opened.known.has('pustule-count')).toBe(false);
    expect(opened.opened.has('pus-spots')).toBe(true);
  });

  it('leaves open what has a question of its own', () => {
    expect(known(['danger', { marks: [] }]).has('feeding')).toBe(false);
    expect(known(['danger', { marks: ['feeding=not-at-all'] }]).get('feeding')).toBe('not-at-all');
  });

  it('never calls normal what another region marked', () => {
    for (const order of [
      ['danger', 'belly-cord'],
      ['belly-cord', 'danger'],
    ] as const) {
      const of = known(...order.map((id): [string, Given] => [id, { marks: id === 'danger' ? ['bleeding-now=elsewhere'] : [] }]));
      expect(of.get('bleeding-now')).toBe('elsewhere');
    }
  });

  it('keeps the danger that was marked first when a later region marks something milder', () => {
    const of = known(
      ['danger', { marks: ['breathing-rhythm=gasping-or-none'] }],
      ['breathing-colour-more', { marks: ['breathing-rhythm=short-pauses-pink'] }],
    );
    expect(of.get('breathing-rhythm')).toBe('gasping-or-none');
  });

  it('holds the furthest of several marks where the flow says so', () => {
    expect(known(['yellow', { marks: ['yellow-reach=face', 'yellow-reach=trunk'] }]).get('yellow-reach')).toBe('trunk');
  });

  it('stays unknown when it was passed, or when only labelled values came', () => {
    expect(known(['breathing-colour', { passed: true }]).entries()).toEqual([]);
    expect([...known(['breathing-colour', { values: { temperature: 36.8 } }]).entries()]).toEqual([['temperature', [36.8]]]);
  });

  it('lets the worker say that the sex is not clear after all', () => {
    const examination = answered(['who', { values: { sex: 'girl' } }], ['girl', { marks: ['sex=not-clear'] }]);
    expect(gather([flow], examination, findings, now).case.sex).toBe('not-clear');
  });
});

describe('readings', () => {
  const counts = (...values: readonly (number | null)[]): FindingValue | undefined =>
    known(...values.map((value): [string, Given] => ['vitals', { values: { temperature: value } }])).get('temperature');

  it('are kept in order', () => {
    expect(counts(36.8, 37.2)).toEqual([36.8, 37.2]);
  });

  it('are not lost when a later one cannot be had', () => {
    expect(counts(36.8, null)).toEqual([36.8]);
    expect(counts(null)).toBeNull();
    expect(counts(null, 36.8)).toEqual([36.8]);
  });

  it('are never so many that a fever is pushed out', () => {
    expect(counts(38.5, 37.0, 36.9, 36.8)).toEqual([38.5, 36.9, 36.8]);
    expect(counts(36.6, 36.7, 36.8, 38.5)).toEqual([36.7, 36.8, 38.5]);
  });

  it('of what does not repeat are the last one given', () => {
    expect(
      known(['cord-red', { values: { 'cord-redness': 1 } }], ['cord-red', { values: { 'cord-redness': 0.5 } }]).get('cord-redness'),
    ).toBe(0.5);
  });
});

describe('the case', () => {
  it('holds the baby as it was answered', () => {
    const examination = answered([
      'who',
      { values: { sex: 'girl', born: minutesAt('2026-11-25T04:30'), gestation: '39+4', 'birth-weight': 3100, card: '77' } },
    ]);
    expect(writtenCase(gather([flow], examination, findings, now).case)).toEqual({
      ageHours: 5,
      sex: 'girl',
      gestation: { weeks: 39, days: 4 },
      birthWeightGrams: 3100,
      weightGrams: null,
      findings: {},
      unlisted: 'not-assessed',
    });
  });

  it('of nothing is a baby of whom nothing is known', () => {
    expect(writtenCase(gather([flow], answered(), findings, now).case)).toEqual({
      ageHours: null,
      sex: null,
      gestation: null,
      birthWeightGrams: null,
      weightGrams: null,
      findings: {},
      unlisted: 'not-assessed',
    });
  });
});

describe('a mark that an edit took out of the flow', () => {
  const breathing = stepOf('breathing-colour') as MarkStep;
  const edited = {
    ...flow,
    steps: flow.steps.map((step) =>
      step === breathing ? { ...breathing, seal: 'edited', marks: breathing.marks.filter((mark) => mark.id !== 'grunting') } : step,
    ),
  };

  it('keeps what it said', () => {
    const examination = answered(['breathing-colour', { marks: ['grunting', 'breathing-colour-more'] }]);
    expect(gather([edited], examination, findings, now).known.get('grunting')).toBe(true);
  });

  it('keeps what it said when the region is answered again', () => {
    const step = edited.steps.find((one) => one.id === 'breathing-colour')!;
    const again = addAnswer(answered(['breathing-colour', { marks: ['grunting', 'nasal-flaring'], values: { temperature: 36.8 } }]), step, {
      marks: [],
    });
    const { known: of } = gather([edited], again, findings, now);
    expect(of.get('grunting')).toBe(true);
    expect(of.get('nasal-flaring')).toBe(false);
    expect(of.get('temperature')).toEqual([36.8]);
  });

  it('keeps what it said when its whole step is gone', () => {
    const without = { ...flow, steps: flow.steps.filter((step) => step !== breathing) };
    expect(
      gather([without], answered(['breathing-colour', { marks: ['chest-indrawing=severe'] }]), findings, now).known.get('chest-indrawing'),
    ).toBe('severe');
  });

  it.each([
    ['grunting', { of: 'grunting', value: true }],
    ['tone=floppy', { of: 'tone', value: 'floppy' }],
    ['pustule-count=3', { of: 'pustule-count', value: 3 }],
    ['sex=not-clear', { of: 'sex', value: 'not-clear' }],
    ['then:pus-spots', null],
    ['skin-more', null],
    ['__proto__', null],
    ['constructor=1', null],
  ])('named %s says %j', (id, sets) => {
    expect(setsOfRetiredMark(id, findings)).toEqual(sets);
  });
});

describe('two marks of one finding', () => {
  it('cannot both be made, unless the furthest holds', () => {
    expect(
      conflictOf(stepOf('breathing-colour') as MarkStep, ['chest-indrawing=severe', 'chest-indrawing=mild'])?.map((mark) => mark.id),
    ).toEqual(['chest-indrawing=severe', 'chest-indrawing=mild']);
    expect(conflictOf(stepOf('yellow') as MarkStep, ['yellow-reach=face', 'yellow-reach=trunk'])).toBeNull();
    expect(conflictOf(stepOf('breathing-colour') as MarkStep, ['grunting', 'nasal-flaring'])).toBeNull();
  });
});
