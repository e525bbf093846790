import { describe, expect, it } from 'vitest';
import type { FindingValue } from '../../src/clinical/protocol.ts';
import { addAnswer, beginExamination } from '../../src/dialog/examination.ts';
import type { Flow, MarkStep, Step } from '../../src/dialog/flow.ts';
import { nextStep } from '../../src/dialog/next-step.ts';
import type { Examination } from '../../src/dialog/session.ts';
import { standingOf } from '../../src/dialog/standing.ts';
import { book, caller, flow, minutesAt, now, stepOf } from './first-day.ts';

type Given = { readonly marks?: readonly string[]; readonly passed?: true; readonly values?: Readonly<Record<string, FindingValue>> };

const begun = beginExamination(flow.id, '+254700555101', now);
const girl = { sex: 'girl', born: minutesAt('2026-11-25T04:30'), gestation: '39', 'birth-weight': 3100 };
const next = (examination: Examination, steps: Flow = flow): string =>
  standingOf(examination, caller, { ...book, flows: new Map([[flow.id, steps]]) }, now).next.id;

/** Answers every step that comes up, as given or as normal, until the named one is next; the steps on the way. */
function walk(until: string, given: Readonly<Record<string, Given>> = {}): { examination: Examination; asked: readonly string[] } {
  let examination = begun;
  const asked: string[] = [];
  for (let id = next(examination); id !== until; id = next(examination)) {
    if (asked.length > 80) throw new Error(`"${until}" never came up; asked: ${asked.join(', ')}`);
    asked.push(id);
    examination = addAnswer(examination, stepOf(id), given[id] ?? normal(stepOf(id)));
  }
  return { examination, asked };
}

const usual: Readonly<Record<string, FindingValue>> = { ...girl, temperature: 36.8, 'respiratory-rate': 44, 'heart-rate': 132 };

function normal(step: Step): Given {
  if (step.kind === 'mark') return { marks: [] };
  if (step.kind === 'result') return { passed: true };
  const of = step.kind === 'read' ? step.fields.filter((field) => !field.optional).map((field) => field.of) : [step.of];
  return { values: Object.fromEntries(of.map((name) => [name, usual[name] ?? 1])) };
}

describe('the next step', () => {
  it('of a normal girl goes through every region once and ends in the result', () => {
    expect(walk('result').asked).toEqual([
      'who',
      'danger',
      'pregnancy',
      'birth',
      'vitals',
      'breathing-colour',
      'moves',
      'skin',
      'head-eyes-mouth',
      'feeding',
      'belly-cord',
      'back-bottom',
      'girl',
      'limbs',
      'care',
    ]);
  });

  it('asks a boy the questions of a boy', () => {
    expect(walk('result', { who: { values: { ...girl, sex: 'boy' } } }).asked).toContain('boy');
  });

  it('is the urgent result as soon as the baby is urgent, and goes on when the worker does', () => {
    const { examination } = walk('urgent', { danger: { marks: ['convulsion=in-this-illness'] } });
    expect(next(addAnswer(examination, stepOf('urgent'), { passed: true }))).toBe('pregnancy');
  });

  it('stays the urgent result when a value comes instead of going on', () => {
    const { examination } = walk('urgent', { danger: { marks: ['convulsion=in-this-illness'] } });
    expect(next(addAnswer(examination, stepOf('urgent'), { values: { temperature: 36.8 } }))).toBe('urgent');
  });

  it('stays the region when only labelled values came for another step', () => {
    const { examination } = walk('danger');
    expect(next(addAnswer(examination, stepOf('danger'), { values: { temperature: 36.8 } }))).toBe('danger');
  });

  it('skips what was sent early, and asks only the rest of what was sent in part', () => {
    expect(
      walk('result', { danger: { marks: [], values: { temperature: 36.8, 'respiratory-rate': 44, 'heart-rate': 132 } } }).asked,
    ).not.toContain('vitals');
    const { examination } = walk('vitals');
    expect(next(addAnswer(examination, stepOf('vitals'), { values: { temperature: 36.8 } }))).toBe('vitals');
  });

  it('is a step that a mark opened, and no other', () => {
    expect(walk('pus-spots', { skin: { marks: ['then:pus-spots'] } }).asked.at(-1)).toBe('skin');
    expect(walk('breathing-colour-more', { 'breathing-colour': { marks: ['breathing-colour-more'] } }).asked.at(-1)).toBe(
      'breathing-colour',
    );
  });

  it('counts fast breaths again, once, or not at all when it cannot be done', () => {
    const fast = { vitals: { values: { temperature: 36.8, 'respiratory-rate': 64, 'heart-rate': 132 } } };
    const { examination } = walk('breaths-again', fast);
    expect(next(addAnswer(examination, stepOf('breaths-again'), { values: { 'respiratory-rate': 50 } }))).toBe('breathing-colour');
    const gaveUp = addAnswer(examination, stepOf('breaths-again'), {
      values: { 'respiratory-rate': null, 'second-count-not-possible': true },
    });
    expect(next(gaveUp)).not.toBe('breaths-again');
  });

  it('feels for warmth where there is no thermometer', () => {
    expect(walk('touch', { vitals: { values: { temperature: null, 'respiratory-rate': 44, 'heart-rate': 132 } } }).asked.at(-1)).toBe(
      'vitals',
    );
  });

  it('asks a region again that was answered under another seal, and keeps what was marked there', () => {
    const { examination } = walk('moves', { 'breathing-colour': { marks: ['nasal-flaring'] } });
    const breathing = stepOf('breathing-colour') as MarkStep;
    const edited: Flow = { ...flow, steps: flow.steps.map((step) => (step === breathing ? { ...breathing, seal: 'edited' } : step)) };
    const again = standingOf(examination, caller, { ...book, flows: new Map([[flow.id, edited]]) }, now);
    expect(again.next.id).toBe('breathing-colour');
    expect(again.gathered.known.get('nasal-flaring')).toBe(true);
    expect(again.gathered.known.get('grunting')).toBeUndefined();
  });

  it('is there in every flow that ends as it must, and its lack names the mend', () => {
    const endless: Flow = { ...flow, steps: flow.steps.filter((step) => step.kind !== 'result') };
    const { examination } = walk('result');
    const standing = standingOf(examination, caller, book, now);
    expect(() => nextStep(endless, examination, standing)).toThrow(/End it with/);
  });
});
