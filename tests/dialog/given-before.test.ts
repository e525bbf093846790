// What an earlier look gave, as the next look may count it: only what was looked at again, from when it was given first.

import { describe, expect, it } from 'vitest';
import type { Classification, Interpretation } from '../../src/clinical/protocol.ts';
import { givenAt, givenBeforeIn } from '../../src/dialog/given-before.ts';
import { findings } from './first-day.ts';

const hour = 3_600_000;
const first = Date.parse('2026-11-25T09:30:00+03:00');
const book = { findings, isAskedAgain: (id: string) => id !== 'mild-hypothermia' };

const because = (...names: readonly string[]): Classification['because'] => names.map((finding) => ({ finding, value: true }));
const given = (id: string, ...names: readonly string[]): Classification => ({ id, urgency: 'treat', because: because(...names), rows: [] });
const meaning = (...classifications: readonly Classification[]): { interpretation: Interpretation } => ({
  interpretation: { urgency: 'treat', classifications, missing: [], advice: [], computed: {} },
});

describe('what is kept of a look for the next one', () => {
  const last = { startedAt: first - hour, finishedAt: first };

  it('is when it ended, and what each classification rested on that is asked about', () => {
    expect(givenAt(last, meaning(given('some-dehydration', 'sunken-eyes', 'dry-tongue', 'ageHours')), book)).toEqual({
      before: { 'some-dehydration': { at: first, restedOn: ['sunken-eyes', 'dry-tongue'] } },
    });
  });

  it('is the first time where the look before gave it too', () => {
    const before = { jitteriness: { at: first - 2 * hour, restedOn: ['jittery'] } };
    expect(givenAt({ ...last, before }, meaning(given('jitteriness', 'jittery')), book).before).toEqual(before);
    expect(givenAt({ ...last, before }, meaning(), book)).toEqual({});
  });

  it('is nothing of what no rule asks for', () => {
    expect(givenAt(last, meaning(given('mild-hypothermia', 'temperature')), book)).toEqual({});
  });

  it('rests on the weight where it was computed from it', () => {
    const { before } = givenAt(last, meaning(given('birth-weight-not-regained', 'weightChangePercent', 'ageHours')), book);
    expect(before?.['birth-weight-not-regained']?.restedOn).toEqual(['weight']);
  });
});

describe('what a look may count of the looks before it', () => {
  const before = { 'some-dehydration': { at: first, restedOn: ['sunken-eyes', 'dry-tongue'] }, jitteriness: { at: first, restedOn: ['jittery'] } };
  const now = first + 1.5 * hour;

  it.each([
    { answered: [], counts: undefined },
    { answered: ['sunken-eyes'], counts: undefined },
    { answered: ['sunken-eyes', 'dry-tongue'], counts: { 'some-dehydration': 1.5 } },
    { answered: ['jittery', 'sunken-eyes', 'dry-tongue'], counts: { 'some-dehydration': 1.5, jitteriness: 1.5 } },
  ])('$counts where it looked again at $answered', ({ answered, counts }) => {
    expect(givenBeforeIn(before, new Set(answered), now)).toEqual(counts);
  });

  it('is nothing in a first examination', () => {
    expect(givenBeforeIn(undefined, new Set(['jittery']), now)).toBeUndefined();
  });

  it('is nothing of what rested on nothing that is asked', () => {
    expect(givenBeforeIn({ jitteriness: { at: first, restedOn: [] } }, new Set(['jittery']), now)).toBeUndefined();
  });
});
