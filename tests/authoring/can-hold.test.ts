// Whether a condition can hold for any baby: what it finds impossible is, and what is possible comes with the values that make it so.

import { describe, expect, it } from 'vitest';
import { Search } from '../../src/authoring/checks/can-hold.ts';
import { conditionsOf, possibleValues } from '../../src/authoring/checks/possible-values.ts';
import { readCondition } from '../../src/authoring/read-condition.ts';
import { readYaml } from '../../src/authoring/yaml-source.ts';
import type { Condition } from '../../src/clinical/condition.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { defaultVocabulary } from './shipped-flow.ts';

function conditionFrom(text: string): Condition {
  const fail = ({ what }: { readonly what: string }): never => {
    throw new Error(what);
  };
  const top = readYaml({ name: 'try.yaml', text }, fail);
  const condition = top && readCondition(top, defaultVocabulary, fail);
  if (!condition) throw new Error(`"${text}" is no condition.`);
  return condition;
}

function canHold(text: string): boolean {
  const condition = conditionFrom(text);
  const possible = possibleValues(defaultVocabulary, [...conditionsOf(defaultProtocol), condition]);
  return new Search(defaultProtocol, possible).canHold(condition);
}

describe('a condition', () => {
  it.each([
    'grunting',
    '[jittery, jitteriness was given 0.5 h ago]',
    '[grunting, pale]',
    '[age >= 24 h, age < 48 h]',
    '[temperature is low, highest reading of temperature > 37.0]',
    'readings of temperature fall',
    '[2 readings of respiratory-rate are fast, last reading of respiratory-rate is normal]',
    '{ two-of: [grunting, pale, jittery] }',
    '[grunting is given, not pale]',
    'switch cord-pus is urgent',
  ])('can hold: %s', (text) => {
    expect(canHold(text)).toBe(true);
  });

  it.each([
    '[grunting, not grunting]',
    '[grunting, grunting is absent]',
    '[tone is floppy, tone is stiff]',
    '[age >= 48 h, age < 24 h, age is known]',
    'highest reading of temperature > 43.0',
    '[temperature has no reading, temperature is low]',
    '{ all: [{ two-of: [grunting, pale] }], none: [pale] }',
    '[grunting is given, not grunting]',
    '[switch cord-pus is urgent, switch cord-pus is local]',
  ])('can never hold: %s', (text) => {
    expect(canHold(text)).toBe(false);
  });
});
