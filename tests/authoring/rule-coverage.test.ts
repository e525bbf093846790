// A rule that no reference case rests on is found, and one that another always stands in for is not asked a case of its own.

import { describe, expect, it } from 'vitest';
import { implies } from '../../src/authoring/checks/implies.ts';
import { judgeCases } from '../../src/authoring/checks/judged-cases.ts';
import { checkRuleCoverage } from '../../src/authoring/checks/rule-coverage.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import type { ReferenceCase } from '../../src/authoring/read-reference-cases.ts';
import { protocolFiles } from '../../src/cli/load-protocol.ts';
import type { Condition } from '../../src/clinical/condition.ts';
import { defaultProtocol, flowsFolder } from '../support/default-protocol.ts';
import { referenceCases } from '../support/reference-cases.ts';

const sources = protocolFiles(`${flowsFolder}/protocol`);

function uncovered(cases: readonly ReferenceCase[]): Diagnostic[] {
  const found: Diagnostic[] = [];
  checkRuleCoverage(judgeCases(cases, defaultProtocol), defaultProtocol, sources, (diagnostic) => found.push(diagnostic));
  return found;
}

describe('the coverage of the rules', () => {
  it('is whole for the files as shipped', () => {
    expect(uncovered(referenceCases)).toEqual([]);
  });

  it('misses the case on which a rule rests, at its classification', () => {
    const without = referenceCases.filter(({ id }) => id !== 'alone-swelling-all-over');
    expect(uncovered(without)).toMatchObject([
      {
        code: 'floor/rule-not-covered',
        severity: 'warning',
        file: 'classifications/10-infection.yaml',
        what: 'No reference case rests on rule 3 of "suspected-congenital-syphilis": urgent.',
      },
    ]);
  });
});

describe('one condition', () => {
  const seen = (term: string): Condition => ({ kind: 'seen', term });
  const [a, b, c] = [seen('a'), seen('b'), seen('c')];
  const all = (...of: Condition[]): Condition => ({ kind: 'all', of });
  const any = (...of: Condition[]): Condition => ({ kind: 'any', of });
  const atLeast = (count: number, ...of: Condition[]): Condition => ({ kind: 'at-least', count, of });
  const is = (...options: string[]): Condition => ({ kind: 'is', term: 'cry', options, takesNormal: false });

  it.each<[string, Condition, Condition, boolean]>([
    ['itself', a, a, true],
    ['one of its parts', all(a, b), a, true],
    ['more than it has', a, all(a, b), false],
    ['one of several', a, any(a, b), true],
    ['fewer than its own', any(a, b), a, false],
    ['each of its own', any(a, b), any(b, c, a), true],
    ['two of three', all(a, b), atLeast(2, a, b, c), true],
    ['two of three, by one', a, atLeast(2, a, b, c), false],
    ['two of three, by two that may be one', all(any(a, b), any(a, b)), atLeast(2, a, b, c), false],
    ['more options', is('weak'), is('weak', 'none'), true],
    ['fewer options', is('weak', 'none'), is('weak'), false],
    ['its options one by one', is('weak', 'none'), any(is('weak'), is('none')), true],
  ])('brings %s, or does not', (_what, one, other, expected) => {
    expect(implies(one, other)).toBe(expected);
  });
});
