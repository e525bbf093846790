// The proof of the safety floor: every number on which a classification hangs, moved by one step to the less safe side, makes
// some reference case fail. The numbers are found by walking the protocol (tests/support/deciding-numbers.ts).

import { describe, expect, it } from 'vitest';
import { belowFloor } from '../../src/authoring/checks/below-floor.ts';
import type { ReferenceCase } from '../../src/authoring/read-reference-cases.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import type { Protocol } from '../../src/clinical/protocol.ts';
import { type DecidingNumber, decidingNumbers } from '../support/deciding-numbers.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { withMoved } from '../support/moved-number.ts';
import { referenceCases } from '../support/reference-cases.ts';

/** Numbers that make no baby less urgent, wherever they lie, and why. */
const harmless: Readonly<Record<string, string>> = {
  'pneumonia-fast-breathing-only RESP-07: age >= 168': 'the rule before it holds too; this one adds its row',
  'high-body-temperature TEMP-09: temperature > 39': 'from 38.0 it is high already; this one adds its row',
  'head-size-out-of-range HEAD-16: head-centile < 3': 'the rules before it hold too; this one adds its row',
  'head-size-out-of-range HEAD-16: head-centile > 97': 'the rules before it hold too; this one adds its row',
  'head-size-out-of-range HEAD-16: age < 168': 'the rules before it hold too; this one adds its row',
  'care-due ENC-05: birth-weight < 1500': 'the rule before it holds too; this one adds the row of the dose',
  'mildly-low-temperature: 36.5 under cold-grades: no-mild-band':
    'the band that begins there is empty; moved up, it makes 36.5 a cold baby',
};

const numbers = decidingNumbers(defaultProtocol);

/** The cases that name a classification that hangs on the number, with no other expectation; those without switches first. */
function casesAbout({ users }: DecidingNumber): ReferenceCase[] {
  return referenceCases
    .map((one) => {
      const classifications = one.expected.classifications.filter(({ id }) => users.includes(id));
      const { recheck, within } = one.expected;
      const isOfFirst = classifications[0]?.id === one.expected.classifications[0]?.id;
      const times = { ...(isOfFirst && recheck ? { recheck } : {}), ...(isOfFirst && within ? { within } : {}) };
      return { ...one, expected: { urgency: 'routine' as const, classifications, not: [], missing: [], ...times } };
    })
    .filter((one) => one.expected.classifications.length > 0)
    .sort((a, b) => Number(a.input.switches !== undefined) - Number(b.input.switches !== undefined));
}

function isCaught(protocol: Protocol, cases: readonly ReferenceCase[]): boolean {
  return cases.some((one) => belowFloor(one, interpret(protocol, one.input)).length > 0);
}

function isGuarded(number: DecidingNumber): boolean {
  const cases = casesAbout(number);
  const justOver = number.step * 1.0001;
  return [justOver, -justOver].some((by) => isCaught(withMoved(defaultProtocol, number, by), cases));
}

describe('the safety floor', () => {
  it.each(numbers.filter(({ where }) => !(where in harmless)))('catches $where moved by $step to the less safe side', (number) => {
    expect(isGuarded(number)).toBe(true);
  });

  it('has no number to guard among those said to be harmless', () => {
    const known = numbers.filter(({ where }) => where in harmless);
    expect(known.map(({ where }) => where).sort()).toEqual(Object.keys(harmless).sort());
    expect(known.filter(isGuarded)).toEqual([]);
  });

  it('holds for every number as it stands', () => {
    for (const number of numbers) expect(isCaught(withMoved(defaultProtocol, number, 0), casesAbout(number)), number.where).toBe(false);
  });
});
