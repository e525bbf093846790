// What is said of a flow with a fault, beside the examples of diagnostics/flow.yaml: several at once, and of anything at all.

import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import { codesOf, marked } from './marked-yaml.ts';
import { defaultVocabulary, flowText } from './shipped-flow.ts';

const file = 'flows/try.yaml';
/** A second look need not ask every danger sign, so that each example holds only what it is about. */
const flowOf = (steps: string): string => `flow: try\nlooks-again: yes\nsteps:\n${steps}\n  - step: result\n    result: final\n`;

function faultsIn(text: string): Diagnostic[] {
  const faults: Diagnostic[] = [];
  readFlow({ name: file, text }, defaultVocabulary, (fault) => faults.push(fault));
  return faults;
}

const tenSigns = [
  'grunting',
  'nasal-flaring',
  'jittery',
  'restless',
  'startles',
  'pale',
  'very-red',
  'snuffles',
  'gum-cysts',
  'open-spine',
];

describe('a flow with a fault', () => {
  it.each([
    [
      'ten signs, without more',
      `  - step: a\n    «mark»: [${tenSigns.join(', ')}]`,
      `  - step: a\n    mark: [${tenSigns.slice(1).join(', ')}]`,
    ],
    [
      'nine signs beside more',
      `  - step: a\n    «mark»: [${tenSigns.slice(1).join(', ')}]\n    more: [grunting]`,
      `  - step: a\n    mark: [${tenSigns.slice(2).join(', ')}]\n    more: [grunting]`,
    ],
    [
      'ten signs behind 9',
      `  - step: a\n    mark: [pale]\n    «more»: [${tenSigns.join(', ')}]`,
      `  - step: a\n    mark: [pale]\n    more: [${tenSigns.slice(1).join(', ')}]`,
    ],
  ])('flow/too-many-marks is said of %s', (_what, wrong, right) => {
    const { text, range } = marked(flowOf(wrong));
    expect(faultsIn(text)).toMatchObject([{ code: 'flow/too-many-marks', range }]);
    expect(codesOf(faultsIn(flowOf(right)))).toEqual([]);
  });

  it.each(['«steps»:\n  - step: a\n    mark: [grunting]\n', '«steps»:\n  - step: result\n    result: urgent\n'])(
    'flow/no-end is said when it does not end in the final result',
    (steps) => {
      const { text, range } = marked(`flow: try\nlooks-again: yes\n${steps}`);
      expect(faultsIn(text)).toMatchObject([{ code: 'flow/no-end', range }]);
    },
  );

  it('flow/danger-not-asked is said of a danger sign that no step shows in its first list', () => {
    const taken = flowText.replace(/^ {6}- no-anus\n/m, '').replace(/^ {6}- grunting\n/m, '');
    const hidden = flowText.replace(/^ {6}- grunting\n/m, '').replace(/^ {6}- heart-murmur\n/m, '      - heart-murmur\n      - grunting\n');
    const { text, range } = marked(hidden.replace(/^steps:/m, '«steps»:'));
    expect(faultsIn(text)).toMatchObject([{ code: 'flow/danger-not-asked', what: expect.stringContaining('"grunting"'), range }]);
    expect(faultsIn(taken).map(({ what }) => what)).toContainEqual(expect.stringContaining('"grunting"'));
    expect(faultsIn(flowText)).toEqual([]);
  });

  it('says what to type, nearest name first, and what the worker would meet', () => {
    const [fault] = faultsIn(flowOf('  - step: breaths\n    read: respiratry-rate'));
    expect(fault).toMatchObject({ what: 'There is no finding "respiratry-rate".', fix: 'Write "respiratory-rate".' });
  });

  it('tells all of them at once, and reads on', () => {
    const broken = flowOf('  - step: a\n    mark: [gruntng, grunting]\n  - step: b\n    read: [temprature, temperature]\n  - step: c');
    expect(codesOf(faultsIn(broken))).toEqual(['flow/unknown-finding', 'flow/unknown-finding', 'flow/step-kind']);
  });

  it.each([
    ['nothing', ''],
    ['a list', '- a\n- b\n'],
    ['a word', 'flow'],
    ['no steps', 'flow: try\n'],
    ['steps that are a word', 'flow: try\nsteps: all\n'],
    ['a step that is a word', 'flow: try\nsteps: [who]\n'],
    ['broken quotes', 'flow: "try\nsteps:\n'],
    ['a bad indent', 'flow: try\n  steps:\n- a'],
    ['one name twice', 'flow: try\nflow: again\nsteps: []\n'],
    ['a name of the language', 'flow: __proto__\nsteps:\n  - step: constructor\n    read: [__proto__]\n'],
    ['a mark that is a list', flowOf('  - step: a\n    mark: [[grunting]]')],
    ['a mark of nothing', flowOf('  - step: a\n    mark: [~, "", {}]')],
  ])('never throws on %s, and says something', (_what, text) => {
    expect(faultsIn(text).length).toBeGreaterThan(0);
  });
});
