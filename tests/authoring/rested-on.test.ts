// On which of its alternatives it rests that a condition holds: those with which it would go.

import { describe, expect, it } from 'vitest';
import { restedOn } from '../../src/authoring/checks/rested-on.ts';
import type { Condition } from '../../src/clinical/condition.ts';
import { holds } from '../../src/clinical/condition.ts';

const seen = (term: string): Condition => ({ kind: 'seen', term });
const [a, b, c] = [seen('a'), seen('b'), seen('c')];
const any = (...of: Condition[]): Condition => ({ kind: 'any', of });
const all = (...of: Condition[]): Condition => ({ kind: 'all', of });
const twoOf = (...of: Condition[]): Condition => ({ kind: 'at-least', count: 2, of });
const word = (of: Condition): Condition => ({ kind: 'named', name: 'word', besides: [], of });

describe('that a condition holds', () => {
  it.each<[string, Condition, string, string]>([
    ['rests on the only one that is there', any(a, b), 'a', 'a'],
    ['rests on neither of two', any(a, b), 'a b', ''],
    ['rests on both that are needed', twoOf(a, b, c), 'a b', 'a b'],
    ['rests on none of more than are needed', twoOf(a, b, c), 'a b c', ''],
    ['rests on what a shared word rests on', all(word(any(a, b)), c), 'a c', 'a'],
    ['rests on what two alternatives have in common', any(all(any(a, b), c), any(a, c)), 'a', 'a'],
    ['rests on nothing when it does not hold', all(any(a, b), c), 'a', ''],
    ['rests on nothing under none', { kind: 'none', of: [any(a, b)] }, '', ''],
  ])('%s', (_what, condition, there, expected) => {
    const isThere = (part: Condition): boolean => holds(part, (term) => there.split(' ').includes(term));
    const rested = [...restedOn(condition, isThere)].flatMap((part) => (part.kind === 'seen' ? [part.term] : []));
    expect([...new Set(rested)].sort().join(' ')).toBe(expected);
  });
});
