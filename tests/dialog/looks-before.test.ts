// What an earlier look gave, as the next look may count it: only what was looked at again, from when it was given first.

import { describe, expect, it } from 'vitest';
import type { Classification, Interpretation } from '../../src/clinical/protocol.ts';
import { givenBefore, givenIn, previousWeight, weighedIn } from '../../src/dialog/looks-before.ts';
import type { Examination } from '../../src/dialog/session.ts';
import { findings } from './first-day.ts';

const hour = 3_600_000;
const first = Date.parse('2026-11-25T09:30:00+03:00');
const book = { findings, isAskedAgain: (id: string) => id !== 'mild-hypothermia' };

const because = (...names: readonly string[]): Classification['because'] => names.map((finding) => ({ finding, value: true }));
const given = (id: string, ...names: readonly string[]): Classification => ({ id, urgency: 'treat', because: because(...names), rows: [] });
const meaning = (...classifications: readonly Classification[]): Pick<Interpretation, 'classifications'> => ({ classifications });

describe('what is kept of a look for the next one', () => {
  const last = { startedAt: first - hour, finishedAt: first };

  it('is when it ended, and what each classification rested on that is asked about', () => {
    expect(givenIn(last, meaning(given('some-dehydration', 'sunken-eyes', 'dry-tongue', 'ageHours')), book)).toEqual({
      given: { 'some-dehydration': { at: first, restedOn: ['sunken-eyes', 'dry-tongue'] } },
    });
  });

  it('is the first time where the look before gave it too', () => {
    const before = { given: { jitteriness: { at: first - 2 * hour, restedOn: ['jittery'] } } };
    expect(givenIn({ ...last, before }, meaning(given('jitteriness', 'jittery')), book)).toEqual(before);
    expect(givenIn({ ...last, before }, meaning(), book)).toEqual({});
  });

  it('is nothing of what no rule asks for', () => {
    expect(givenIn(last, meaning(given('mild-hypothermia', 'temperature')), book)).toEqual({});
  });

  it('rests on the weight where it was computed from it', () => {
    const kept = givenIn(last, meaning(given('birth-weight-not-regained', 'weightChangePercent', 'ageHours')), book);
    expect(kept.given?.['birth-weight-not-regained']?.restedOn).toEqual(['weight']);
  });
});

describe('what a look may count of the looks before it', () => {
  const before = {
    given: {
      'some-dehydration': { at: first, restedOn: ['sunken-eyes', 'dry-tongue'] },
      jitteriness: { at: first, restedOn: ['jittery'] },
    },
  };
  const now = first + 1.5 * hour;

  it.each([
    { answered: [], counts: undefined },
    { answered: ['sunken-eyes'], counts: undefined },
    { answered: ['sunken-eyes', 'dry-tongue'], counts: { 'some-dehydration': 1.5 } },
    { answered: ['jittery', 'sunken-eyes', 'dry-tongue'], counts: { 'some-dehydration': 1.5, jitteriness: 1.5 } },
  ])('$counts where it looked again at $answered', ({ answered, counts }) => {
    expect(givenBefore(before, new Set(answered), now)).toEqual(counts);
  });

  it('is nothing in a first examination', () => {
    expect(givenBefore({}, new Set(['jittery']), now)).toBeUndefined();
  });

  it('is nothing of what rested on nothing that is asked', () => {
    expect(givenBefore({ given: { jitteriness: { at: first, restedOn: [] } } }, new Set(['jittery']), now)).toBeUndefined();
  });
});

describe('the weight before', () => {
  const last: Examination = {
    ...{ id: 'a', flow: 'x', earlier: [], code: '6WN', startedAt: first, messages: 1, alerted: [], revision: 0, finishedAt: first + hour },
    answers: [{ step: 'who', seal: 's', message: 1, values: { weight: 3050 } }],
  };
  const again = { ...last, earlier: ['x'], finishedAt: first + 24 * hour };

  it('is that of the examination, taken when it began', () => {
    expect(weighedIn(last, 3050)).toEqual({ weighed: { grams: 3050, at: first } });
  });

  it('is that of its second look, taken when that ended', () => {
    const answers = [...last.answers, { step: 'weight-now', seal: 's', look: 1, message: 2, values: { weight: 3000 } }];
    expect(weighedIn({ ...again, answers }, 3000)).toEqual({ weighed: { grams: 3000, at: first + 24 * hour } });
  });

  it('stays what it was where the second look weighed nobody', () => {
    const weighed = { grams: 3050, at: first };
    expect(weighedIn({ ...again, before: { weighed } }, 3050)).toEqual({ weighed });
    expect(weighedIn(again, 3050)).toEqual({ weighed });
  });

  it('is none where nobody was weighed', () => {
    expect(weighedIn({ ...last, answers: [] }, null)).toEqual({});
  });

  it.each([
    { hours: 48, says: { 'previous-weight': 3050, 'days-since-previous': 2 } },
    { hours: 12, says: { 'previous-weight': 3050, 'days-since-previous': 0.5 } },
    { hours: 10, says: {} },
  ])('says $says of how the baby gained after $hours hours', ({ hours, says }) => {
    expect(previousWeight({ weighed: { grams: 3050, at: first } }, first + hours * hour)).toEqual(says);
  });
});
