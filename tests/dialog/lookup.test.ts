// What a guard can ask for beside the answers: each such term is known to it once the answers tell it. A term that it is never told
// would make a guard that never holds, as the change in weight once did.

import { describe, expect, it } from 'vitest';
import { addAnswer, beginExamination } from '../../src/dialog/examination.ts';
import { guardFields } from '../../src/dialog/flow.ts';
import { lookupOf } from '../../src/dialog/lookup.ts';
import { standingOf } from '../../src/dialog/standing.ts';
import { book, caller, flow, minutesAt, now, stepOf } from './first-day.ts';

const values = { sex: 'girl', born: minutesAt('2026-11-22T04:30'), gestation: '39', 'birth-weight': 3200, weight: 2800 };
const answered = addAnswer(beginExamination(flow.id, '+254700555101', now), stepOf('who'), { values });

describe('a guard', () => {
  const lookup = lookupOf(standingOf(answered, caller, book, now));

  it.each(guardFields)('is told of %s', (term) => {
    expect(lookup(term) ?? null).not.toBeNull();
  });

  it('is told how far the weight has fallen, in percent', () => {
    expect(lookup('weight-change')).toBeCloseTo(-12.5);
  });
});
