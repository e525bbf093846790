import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import { sourceOf } from '../../src/cli/load-files.ts';
import type { Flow, MarkStep, ReadStep, Step } from '../../src/dialog/flow.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { defaultVocabulary, flowFrom, flowText } from './shipped-flow.ts';

const shipped = readdirSync(flowsFolder).filter(
  (name) => name.endsWith('.yaml') && /^steps:/m.test(sourceOf(join(flowsFolder, name)).text),
);
const firstDay = flowFrom(flowText);
const stepOf = <K extends Step['kind']>(flow: Flow, id: string, kind: K): Extract<Step, { kind: K }> => {
  const step = flow.steps.find((one) => one.id === id);
  if (step?.kind !== kind) throw new Error(`There is no step "${id}" with ${kind}.`);
  return step as Extract<Step, { kind: K }>;
};
const try_ = (steps: string): Flow => flowFrom(`flow: try\nlooks-again: yes\nsteps:\n${steps}\n  - step: result\n    result: final\n`);

it('finds the flows that ship', () => {
  expect(shipped).toContain('first-day-exam.yaml');
});

it.each(shipped)('%s, as it ships, has no fault', (name) => {
  const faults: Diagnostic[] = [];
  readFlow(sourceOf(join(flowsFolder, name), `flows/${name}`), defaultVocabulary, (fault) => faults.push(fault));
  expect(faults).toEqual([]);
});

describe('a step', () => {
  it('that reads names its values, which of them may be left out, and the options of a choice', () => {
    const who: ReadStep = stepOf(firstDay, 'who', 'read');
    expect(who.fields.map(({ of, optional }) => (optional ? `${of}?` : of))).toEqual(['sex', 'born', 'gestation', 'birth-weight', 'card?']);
    expect(who.fields[0]?.options).toEqual(['girl', 'boy', 'not-clear']);
    expect(stepOf(firstDay, 'hip', 'read').fields[0]?.options).toEqual(['click-only', 'loose-goes-back', 'clunk-or-limited']);
    expect(stepOf(firstDay, 'apgar', 'read').fields.map(({ options }) => options)).toEqual([[], []]);
  });

  it("keeps numbers and words of the safer reading in the finding's own kind", () => {
    expect(stepOf(firstDay, 'waters', 'read').notKnown).toEqual({ 'waters-broken-long-hours-not-known': true });
    expect(stepOf(firstDay, 'breaths-again', 'again').notKnown).toEqual({ 'second-count-not-possible': true });
  });

  it('is opened when a mark or digit 9 opens it', () => {
    const opened = firstDay.steps.filter((step) => step.opened).map(({ id }) => id);
    expect(opened).toEqual(expect.arrayContaining(['waters', 'pus-spots', 'breathing-colour-more', 'dimple']));
    expect(opened).not.toContain('breathing-colour');
    expect(opened).not.toContain('touch');
  });

  it('with more becomes two, the second right behind the first and open to its digit only', () => {
    const flow = try_('  - step: a\n    only-if: sex is girl\n    twins: share\n    mark: [grunting]\n    more: [restless]');
    expect(flow.steps.map(({ id }) => id)).toEqual(['a', 'a-more', 'result']);
    const more: MarkStep = stepOf(flow, 'a-more', 'mark');
    expect(more).toMatchObject({ opened: true, shared: true, onlyIf: [] });
    expect(more.marks.map(({ id }) => id)).toEqual(['restless']);
    expect(stepOf(flow, 'a', 'mark')).toMatchObject({ more: 'a-more', opened: false });
    expect(more).not.toHaveProperty('more');
  });

  it.each([
    ['grunting', { id: 'grunting', sets: { of: 'grunting', value: true }, otherwise: {} }],
    ['grunting: true', { id: 'grunting', sets: { of: 'grunting', value: true }, otherwise: {} }],
    ['chest-indrawing: severe', { id: 'chest-indrawing=severe', sets: { of: 'chest-indrawing', value: 'severe' }, otherwise: {} }],
    ['one-sided-face: yes', { id: 'one-sided-face=yes', sets: { of: 'one-sided-face', value: 'yes' }, otherwise: {} }],
    ['sex: not-clear', { id: 'sex=not-clear', sets: { of: 'sex', value: 'not-clear' }, otherwise: {} }],
    ['pustule-count: 3', { id: 'pustule-count=3', sets: { of: 'pustule-count', value: 3 }, otherwise: {} }],
    ['then: spots', { id: 'then:spots', sets: null, opens: 'spots', otherwise: {} }],
    [
      '{ then: spots, otherwise: { pustule-count: 0 } }',
      { id: 'then:spots', sets: null, opens: 'spots', otherwise: { 'pustule-count': 0 } },
    ],
    [
      '{ mark: sacral-dimple, then: spots }',
      { id: 'sacral-dimple', sets: { of: 'sacral-dimple', value: true }, opens: 'spots', otherwise: {} },
    ],
    ['{ tone: floppy, then: spots }', { id: 'tone=floppy', sets: { of: 'tone', value: 'floppy' }, opens: 'spots', otherwise: {} }],
  ])('with the mark %j is read as written', (mark, read) => {
    const flow = try_(`  - step: a\n    mark:\n      - ${mark}\n  - step: spots\n    read: [pustule-count]`);
    expect(stepOf(flow, 'a', 'mark').marks).toEqual([read]);
  });

  it('may be guarded by what is not known, by the baby, and by how urgent it is', () => {
    expect(stepOf(firstDay, 'touch', 'read').onlyIf).toEqual([{ kind: 'unknown', of: 'temperature' }]);
    expect(stepOf(firstDay, 'urgent', 'result').onlyIf).toMatchObject([{ kind: 'condition', text: 'urgency is urgent' }]);
    expect(stepOf(firstDay, 'sugar', 'read').onlyIf).toMatchObject([{ kind: 'condition' }]);
  });
});
