import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addAnswer, beginExamination, beginRecheck, beginTwin, codeOf, finish, reopen, takeBack } from '../../src/dialog/examination.ts';
import { gather } from '../../src/dialog/gather.ts';
import { findings, flow, minutesAt, now, stepOf } from './first-day.ts';

const phone = '+254700555101';
const begun = beginExamination(flow.id, phone, now);

describe('a code', () => {
  it('is a digit and two letters that nobody mistakes, the same for the same examination', () => {
    fc.assert(
      fc.property(fc.string(), (id) => {
        expect(codeOf(id)).toMatch(/^[2-9][ACDEFHJKMNPRTUVWXY]{2}$/);
        expect(codeOf(id)).toBe(codeOf(id));
      }),
    );
  });

  it('is spread evenly: of a thousand examinations no code comes up often', () => {
    const counts = new Map<string, number>();
    for (let at = 0; at < 1000; at += 1) {
      const code = codeOf(`${phone}-${now + at * 60_000}`);
      counts.set(code, (counts.get(code) ?? 0) + 1);
    }
    expect(Math.max(...counts.values())).toBeLessThanOrEqual(6);
  });
});

describe('taking back', () => {
  it('drops all that the last message gave', () => {
    const one = addAnswer(begun, stepOf('who'), { values: { sex: 'girl' } });
    const two = addAnswer(one, stepOf('danger'), { marks: [], values: { temperature: 36.8 } });
    expect(takeBack(two)).toMatchObject({ answers: one.answers });
    expect(takeBack(takeBack(two)!)).toMatchObject({ answers: [] });
    expect(takeBack(begun)).toBeNull();
  });

  it('opens a finished examination again', () => {
    const finished = finish(addAnswer(begun, stepOf('danger'), { marks: [] }), now);
    expect(takeBack(finished)).not.toHaveProperty('finishedAt');
  });
});

describe('reopening', () => {
  const known = (examination: typeof begun) => gather([flow], examination, findings, now).known;

  it('asks again what could not be had, the time of birth too, and keeps the rest', () => {
    const who = addAnswer(begun, stepOf('who'), { values: { sex: 'girl', born: null, gestation: null } });
    const vitals = addAnswer(who, stepOf('vitals'), { values: { temperature: null, 'respiratory-rate': 44 } });
    const open = reopen(finish(vitals, now), ['temperature', 'ageHours'], flow);
    expect(open).not.toHaveProperty('finishedAt');
    expect(open.revision).toBe(1);
    expect(Object.fromEntries(known(open).entries())).toEqual({ sex: 'girl', gestation: null, 'respiratory-rate': [44] });
  });

  it('asks a region again that was passed, if it can say what is missing', () => {
    const passed = addAnswer(addAnswer(begun, stepOf('breathing-colour'), { passed: true }), stepOf('head-eyes-mouth'), { passed: true });
    expect(reopen(passed, ['grunting'], flow).answers.map((answer) => answer.step)).toEqual(['head-eyes-mouth']);
  });
});

describe('the next twin', () => {
  const later = now + 3_600_000;

  it('shares the history and the weeks, and nothing else that was sent along', () => {
    const who = addAnswer(begun, stepOf('who'), {
      values: { sex: 'girl', born: minutesAt('2026-11-25T04:30'), gestation: '36', 'birth-weight': 2400 },
    });
    const history = addAnswer(who, stepOf('pregnancy'), { marks: ['then:waters'], values: { temperature: 38.5 } });
    const waters = addAnswer(history, stepOf('waters'), { values: { 'waters-broken-hours': 20, 'heart-rate': 150 } });
    const birth = addAnswer(waters, stepOf('birth'), { marks: ['twin-or-triplet'] });
    const twin = beginTwin(finish(birth, later), flow, phone, later);
    const { known } = gather([flow], twin, findings, later);
    expect(known.get('gestation')).toBe('36');
    expect(known.get('waters-broken-hours')).toBe(20);
    expect(known.get('mother-tb')).toBe(false);
    for (const of of ['sex', 'born', 'birth-weight', 'temperature', 'heart-rate', 'twin-or-triplet']) expect(known.has(of), of).toBe(false);
    expect(twin.id).not.toBe(begun.id);
    expect(takeBack(twin)).toBeNull();
  });

  it('begins in a first look, also after the other was looked at again', () => {
    const again = addAnswer(beginRecheck(finish(begun, now), flow.id), stepOf('waters'), { values: { 'waters-broken-hours': 20 } });
    const twin = beginTwin(again, flow, phone, later);
    expect(gather([flow], twin, findings, later).known.get('waters-broken-hours')).toBe(20);
  });
});
