// What must hold of every interpretation, whatever was found.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandOf, bandsUnder } from '../../src/clinical/bands.ts';
import { holds } from '../../src/clinical/condition.ts';
import { FindingsAtHand, placesOf } from '../../src/clinical/findings-at-hand.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import type { Case, FindingValue, Interpretation, NumberFinding } from '../../src/clinical/protocol.ts';
import { anyCase, anyReading } from '../support/arbitrary-case.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

const runs = { numRuns: 200 };
const bySeverity: readonly Interpretation['urgency'][] = ['routine', 'incomplete', 'treat', 'refer', 'urgent'];
const severity = (aCase: Case): number => bySeverity.indexOf(interpret(defaultProtocol, aCase).urgency);

/** What a danger sign looks like when it is there: values that make danger-sign hold by themselves. */
const dangerSign = defaultProtocol.conditions.get('danger-sign');
if (dangerSign === undefined) throw new Error('The protocol has no condition danger-sign. Put it back in conditions.yaml.');
const dangers: [string, FindingValue][] = defaultProtocol.findings.flatMap((finding): [string, FindingValue][] => {
  const values: FindingValue[] =
    finding.kind === 'sign' ? [true] : finding.kind === 'choice' ? [...finding.options] : finding.bands.map((band) => band.from);
  return values
    .filter((value) => holds(dangerSign, (term) => (term === finding.id ? value : term === 'age' ? 500 : undefined)))
    .map((value) => [finding.id, value]);
});

describe('an interpretation', () => {
  it('is given for any valid case, and never thrown', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), (aCase) => {
        const result = interpret(defaultProtocol, aCase);
        const highest = Math.max(0, ...result.classifications.map((one) => bySeverity.indexOf(one.urgency)));
        expect(bySeverity.indexOf(result.urgency)).toBe(highest > 0 ? highest : result.missing.length > 0 ? 1 : 0);
        expect(result.classifications.some((one) => one.id === 'well-baby')).toBe(result.urgency === 'routine');
      }),
      runs,
    );
  });

  it('orders its classifications most urgent first', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), (aCase) => {
        const ranks = interpret(defaultProtocol, aCase).classifications.map((one) => bySeverity.indexOf(one.urgency));
        expect(ranks).toEqual([...ranks].sort((a, b) => b - a));
      }),
      runs,
    );
  });

  it('says why, for every classification that is not routine', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), (aCase) => {
        const silent = interpret(defaultProtocol, aCase).classifications.filter(
          (one) => one.urgency !== 'routine' && (one.because.length === 0 || one.rows.length === 0),
        );
        expect(silent).toEqual([]);
      }),
      runs,
    );
  });

  it('does not depend on the order of the keys', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), (aCase) => {
        const reversed = { ...aCase, findings: Object.fromEntries(Object.entries(aCase.findings).reverse()) };
        expect(interpret(defaultProtocol, reversed)).toEqual(interpret(defaultProtocol, aCase));
      }),
      runs,
    );
  });

  it("is the same for findings at hand, in its own places or another's, whatever else is held", () => {
    const backwards = new Map([...defaultProtocol.findingById].reverse());
    fc.assert(
      fc.property(anyCase(defaultProtocol), fc.constantFrom(defaultProtocol.findingById, backwards), (aCase, findings) => {
        const atHand = new FindingsAtHand(placesOf(findings));
        for (const [of, value] of Object.entries({ ...aCase.findings, born: 29_930_057, sex: 'boy', 'no-finding': true }))
          atHand.set(of, value);
        expect(interpret(defaultProtocol, { ...aCase, findings: atHand })).toEqual(interpret(defaultProtocol, aCase));
      }),
      runs,
    );
  });

  it('is never less urgent with one danger sign more', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), fc.constantFrom(...dangers), (aCase, [id, value]) => {
        const before = aCase.findings[id];
        if (before !== undefined && before !== null && before !== false) return;
        expect(severity({ ...aCase, findings: { ...aCase.findings, [id]: value } })).toBeGreaterThanOrEqual(severity(aCase));
      }),
      { numRuns: 600 },
    );
  });

  it('is urgent for every danger sign alone, but for what the first days excuse', () => {
    const lines = dangers.map(
      ([id, value]) =>
        [id, value, interpret(defaultProtocol, { ageHours: 500, findings: { [id]: value }, unlisted: 'normal' }).urgency] as const,
    );
    expect(lines.filter(([, , urgency]) => urgency !== 'urgent')).toEqual([]);
    expect(dangers.length).toBeGreaterThan(25);
  });
});

describe('a number', () => {
  const numbers = [
    ...defaultProtocol.findings.filter((finding): finding is NumberFinding => finding.kind === 'number' || finding.kind === 'count'),
    ...[...defaultProtocol.measures.values()].filter((one) => one.bands.length > 0),
  ];

  it.each(numbers.map((finding) => [finding.id, finding] as const))(
    '%s has exactly one meaning anywhere in its range, under any switch',
    (_id, finding) => {
      const options = [...defaultProtocol.switches.values()].flatMap((one) => one.options.map((option) => [one.id, option] as const));
      fc.assert(
        fc.property(anyReading(finding), fc.constantFrom(...options), (value, [id, option]) => {
          const bands = bandsUnder(finding, defaultProtocol.limits, (asked) => (asked === id ? option : undefined));
          expect(bands.filter((band) => bandOf(value, [band]) !== undefined)).toHaveLength(1);
        }),
      );
    },
  );
});
