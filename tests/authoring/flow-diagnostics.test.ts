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

const pairs: readonly (readonly [code: string, wrong: string, right: string])[] = [
  ['flow/unknown-finding', '  - step: breaths\n    read: [«respiratry-rate»]', '  - step: breaths\n    read: [respiratory-rate]'],
  ['flow/unknown-finding', '  - step: a\n    mark: [«gruntng»]', '  - step: a\n    mark: [grunting]'],
  [
    'flow/unknown-finding',
    '  - step: a\n    mark:\n      - «chest-indrawng»: severe',
    '  - step: a\n    mark:\n      - chest-indrawing: severe',
  ],
  [
    'flow/unknown-finding',
    '  - step: a\n    read: [glucose]\n    not-known: { «no-glucose»: true }',
    '  - step: a\n    read: [glucose]\n    not-known: { no-glucose-test: true }',
  ],
  [
    'flow/unknown-finding',
    '  - step: a\n    only-if: «unknown temprature»\n    read: [warmth-by-touch]',
    '  - step: a\n    only-if: unknown temperature\n    read: [warmth-by-touch]',
  ],
  [
    'flow/unknown-option',
    '  - step: a\n    mark:\n      - chest-indrawing: «severely»',
    '  - step: a\n    mark:\n      - chest-indrawing: severe',
  ],
  [
    'flow/unknown-option',
    '  - step: a\n    read: [hip]\n    options: { hip: [click-only, «clunk»] }',
    '  - step: a\n    read: [hip]\n    options: { hip: [click-only, clunk-or-limited] }',
  ],
  ['flow/unknown-option', '  - step: a\n    mark:\n      - sex: «unclear»', '  - step: a\n    mark:\n      - sex: not-clear'],
  ['flow/not-a-sign', '  - step: a\n    mark: [«tone»]', '  - step: a\n    mark:\n      - tone: floppy'],
  ['flow/not-true-or-false', '  - step: a\n    mark:\n      - grunting: «yes»', '  - step: a\n    mark:\n      - grunting: true'],
  [
    'flow/out-of-range',
    '  - step: a\n    read: [mother-temperature]\n    not-known: { mother-temperature: «380» }',
    '  - step: a\n    read: [mother-temperature]\n    not-known: { mother-temperature: 38.0 }',
  ],
  [
    'flow/out-of-range',
    '  - step: a\n    read: [mother-temperature]\n    not-known: { mother-temperature: «0x26» }',
    '  - step: a\n    read: [mother-temperature]\n    not-known: { mother-temperature: 38 }',
  ],
  ['flow/step-kind', '  - step: «a»', '  - step: a\n    mark: [grunting]'],
  [
    'flow/step-kind',
    '  - step: «a»\n    mark: [grunting]\n    read: [temperature]',
    '  - step: a\n    mark: [grunting]\n  - step: b\n    read: [temperature]',
  ],
  [
    'flow/step-twice',
    '  - step: a\n    mark: [grunting]\n  - step: «a»\n    mark: [jittery]',
    '  - step: a\n    mark: [grunting]\n  - step: b\n    mark: [jittery]',
  ],
  [
    'flow/unknown-step',
    '  - step: a\n    mark:\n      - then: «spots»\n  - step: pus-spots\n    read: [pustule-count]',
    '  - step: a\n    mark:\n      - then: pus-spots\n  - step: pus-spots\n    read: [pustule-count]',
  ],
  ['flow/not-repeated', '  - step: a\n    again: «cord-redness»', '  - step: a\n    again: respiratory-rate'],
  ['flow/nothing-asked', '  - step: a\n    «mark»: []', '  - step: a\n    mark: [grunting]'],
  ['flow/nothing-asked', '  - step: a\n    «read»: []', '  - step: a\n    read: [temperature]'],
  ['flow/nothing-asked', '  - step: a\n    mark: [grunting]\n    «more»: []', '  - step: a\n    mark: [grunting]\n    more: [restless]'],
  ['flow/mark-twice', '  - step: a\n    mark: [grunting, jittery, «grunting»]', '  - step: a\n    mark: [grunting, jittery]'],
  [
    'flow/mark-twice',
    '  - step: a\n    mark:\n      - grunting\n      - «{ grunting: true }»',
    '  - step: a\n    mark:\n      - grunting: true',
  ],
  [
    'flow/two-findings',
    '  - step: a\n    mark:\n      - { tone: floppy, «cry»: unable }',
    '  - step: a\n    mark:\n      - tone: floppy\n      - cry: unable',
  ],
  [
    'flow/not-for-this-step',
    '  - step: a\n    read: [temperature]\n    «more»: [grunting]',
    '  - step: a\n    mark: [jittery]\n    more: [grunting]',
  ],
  [
    'flow/not-for-this-step',
    '  - step: a\n    result: urgent\n    «not-known»: { no-glucose-test: true }',
    '  - step: a\n    result: urgent',
  ],
  [
    'flow/not-in-this-step',
    '  - step: a\n    mark:\n      - yellow-reach: face\n    furthest: [«yellow-rich»]',
    '  - step: a\n    mark:\n      - yellow-reach: face\n    furthest: [yellow-reach]',
  ],
  [
    'flow/not-in-this-step',
    '  - step: a\n    mark: [grunting]\n    leaves-open: [«feeding»]',
    '  - step: a\n    mark:\n      - feeding: not-at-all\n    leaves-open: [feeding]',
  ],
  [
    'flow/not-in-this-step',
    '  - step: a\n    read: [hip]\n    options: { «limp-arm»: [arm-only] }',
    '  - step: a\n    read: [limp-arm]\n    options: { limp-arm: [arm-only] }',
  ],
];

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
  it.each(pairs)('%s points at it, and is silent once it is mended', (code, wrong, right) => {
    const { text, range } = marked(flowOf(wrong));
    expect(faultsIn(text)).toMatchObject([{ code, file, severity: 'error', range }]);
    expect(codesOf(faultsIn(flowOf(right)))).toEqual([]);
  });

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
    for (const [, wrong] of pairs) {
      for (const { what, why, fix } of faultsIn(marked(flowOf(wrong)).text))
        for (const said of [what, why, fix]) expect(said).toMatch(/\S.*\.$/s);
    }
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
