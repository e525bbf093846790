// A handover in SBAR order: the situation is what is urgent and new; the background weeks, birth weight, and what matters of
// mother, birth and care; the assessment what was measured, and the lesser signs; nothing stands in two of them.
// Form: rows SBAR-01 to SBAR-03 of the reference, which are from memory.

import { describe, expect, it } from 'vitest';
import type { Because, Case, Classification, Interpretation } from '../../src/clinical/protocol.ts';
import { handoverOf } from '../../src/on-call/sbar.ts';

const found = (id: string, urgency: Classification['urgency'], ...because: Because[]): Classification => ({
  id,
  urgency,
  because,
  rows: [],
});
const fit: Because = { finding: 'convulsion', value: 'in-this-illness' };
const fever: Because = { finding: 'temperature', value: [38.4] };
const meaning = (...classifications: Classification[]): Interpretation => ({
  urgency: 'urgent',
  classifications,
  missing: [],
  advice: [],
  computed: {},
});
const baby: Case = {
  ageHours: 5,
  sex: 'girl',
  gestation: { weeks: 35 },
  birthWeightGrams: 2300,
  findings: { temperature: [38.4], 'respiratory-rate': [44], glucose: null, convulsion: 'in-this-illness' },
};
const groups: Readonly<Record<string, string>> = { 'bcg-not-given': 'care-given', 'waters-broken-hours': 'history', pustules: 'skin' };
const known = { isBox: (): boolean => false, groupOf: (finding: string): string | undefined => groups[finding] };
const names = (ones: readonly Because[]): string[] => ones.map((one) => one.finding);

describe('a handover', () => {
  it('tells of the urgent news, what was measured, and the background, each thing once', () => {
    const interpretation = meaning(
      found('convulsion', 'urgent', fit),
      found('preterm', 'refer', { finding: 'gestation', value: { weeks: 35 } }),
      found('few-pustules', 'treat', { finding: 'pustules', value: 'few' }),
      found('infection-risk', 'refer', { finding: 'waters-broken-hours', value: 20 }),
      found('care-due', 'treat', { finding: 'bcg-not-given', value: true }),
    );
    const { situation, assessment, background } = handoverOf(baby, interpretation, ['convulsion'], known);
    expect(situation.map((one) => one.id)).toEqual(['convulsion']);
    expect(names(background)).toEqual(['gestation', 'birthWeightGrams', 'waters-broken-hours', 'bcg-not-given']);
    expect(names(assessment)).toEqual(['temperature', 'respiratory-rate', 'pustules']);
  });

  it('does not repeat a measure that is among the reasons', () => {
    const { assessment } = handoverOf(baby, meaning(found('high-body-temperature', 'urgent', fever)), ['high-body-temperature'], known);
    expect(names(assessment)).toEqual(['respiratory-rate']);
  });

  it('tells of the weight now when it is not the birth weight', () => {
    const interpretation = meaning(found('convulsion', 'urgent', fit));
    const weighed = (weightGrams: number) => names(handoverOf({ ...baby, weightGrams }, interpretation, ['convulsion'], known).assessment);
    expect(weighed(2150)).toEqual(['temperature', 'respiratory-rate', 'weightGrams']);
    expect(weighed(2300)).toEqual(['temperature', 'respiratory-rate']);
  });

  it('leaves out what the nurse was told before', () => {
    const interpretation = meaning(found('convulsion', 'urgent', fit), found('high-body-temperature', 'urgent', fever));
    expect(handoverOf(baby, interpretation, ['high-body-temperature'], known).situation.map((one) => one.id)).toEqual([
      'high-body-temperature',
    ]);
  });

  it('names the sign rather than the box that gathers it, and the box when there is nothing else', () => {
    const isBox = (id: string): boolean => id === 'critical-illness';
    const both = meaning(found('critical-illness', 'urgent', fit), found('convulsion', 'urgent', fit));
    expect(handoverOf(baby, both, ['critical-illness', 'convulsion'], { ...known, isBox }).situation.map((one) => one.id)).toEqual([
      'convulsion',
    ]);
    expect(handoverOf(baby, both, ['critical-illness'], { ...known, isBox }).situation.map((one) => one.id)).toEqual(['critical-illness']);
  });

  it('has no situation when nothing is urgent, and leaves out what is not known', () => {
    const { situation, background, assessment } = handoverOf({ findings: {} }, meaning(), [], known);
    expect([situation, background, assessment]).toEqual([[], [], []]);
  });
});
