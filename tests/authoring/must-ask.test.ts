// What each flow must ask: a question that is dropped is said where it is demanded, and what is asked more is welcome.

import { describe, expect, it } from 'vitest';
import { askedIn, checkMustAsk } from '../../src/authoring/checks/must-ask.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import { defaultVocabulary } from './shipped-flow.ts';

const steps = `
  - step: breathing
    mark:
      - grunting
      - chest-indrawing: severe
  - step: vitals
    read: [temperature, respiratory-rate]
  - step: hips
    read: [hip]
    options: { hip: [click-only, clunk-or-limited] }`;

function flowOf(text: string) {
  const flow = readFlow(
    { name: 'flows/try.yaml', text: `flow: try\nlooks-again: yes\nsteps:${text}\n  - step: result\n    result: final\n` },
    defaultVocabulary,
    (fault) => {
      throw new Error(fault.what);
    },
  );
  if (flow === null) throw new Error('The flow of this test cannot be read.');
  return flow;
}

function faultsOf(wanted: string, text = steps): Diagnostic[] {
  const faults: Diagnostic[] = [];
  checkMustAsk({ name: 'must-ask.yaml', text: wanted }, [flowOf(text)], (fault) => faults.push(fault));
  return faults;
}

describe('what a flow must ask', () => {
  it('is all that can be said in it', () => {
    expect([...askedIn(flowOf(steps))]).toEqual([
      ...['grunting', 'chest-indrawing: severe', 'temperature', 'respiratory-rate', 'hip: click-only', 'hip: clunk-or-limited'],
    ]);
  });

  it.each([
    'try: [grunting, temperature]',
    'try: [{ chest-indrawing: severe }, { hip: [click-only, clunk-or-limited] }]',
    'try: [{ respiratory-rate: any }]',
    'try: []',
  ])('is asked: %s', (wanted) => {
    expect(faultsOf(wanted)).toEqual([]);
  });

  it.each([
    ['try: [nasal-flaring]', '"try" does not ask for "nasal-flaring".'],
    ['try: [{ chest-indrawing: mild }]', '"try" does not ask for "chest-indrawing: mild".'],
    ['try: [{ hip: [click-only, still-loose-at-2-weeks] }]', '"try" does not ask for "hip: still-loose-at-2-weeks".'],
    ['try: [hip]', '"try" does not ask for "hip".'],
  ])('is missed where it is not: %s', (wanted, what) => {
    expect(faultsOf(wanted)).toMatchObject([{ code: 'must-ask/not-asked', severity: 'error', file: 'must-ask.yaml', what }]);
  });

  it('is said for every flow, and of no flow that is not there', () => {
    expect(faultsOf('{}')).toMatchObject([{ code: 'must-ask/flow-missing' }]);
    expect(faultsOf('try: []\nother: []')).toMatchObject([{ code: 'must-ask/unknown-flow', what: 'There is no flow "other".' }]);
  });

  it('is found missing when its question is taken out', () => {
    expect(faultsOf('try: [grunting]', steps.replace('      - grunting\n', ''))).toMatchObject([{ code: 'must-ask/not-asked' }]);
  });
});
