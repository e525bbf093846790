// A handover in SBAR order: the situation is what is urgent and new, the assessment what was measured beside it, the background
// size, weeks and the lesser findings; nothing stands in two of them. Form: common practice, no source.

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
const noBox = (): boolean => false;
const names = (ones: readonly Because[]): string[] => ones.map((one) => one.finding);

describe('a handover', () => {
  it('tells of the urgent news, what was measured, and the background, each thing once', () => {
    const interpretation = meaning(
      found('convulsion', 'urgent', fit),
      found('preterm', 'refer', { finding: 'gestation', value: { weeks: 35 } }),
      found('care-due', 'treat', { finding: 'bcg-not-given', value: true }),
    );
    const { situation, assessment, background } = handoverOf(baby, interpretation, ['convulsion'], noBox);
    expect(situation.map((one) => one.id)).toEqual(['convulsion']);
    expect(names(assessment)).toEqual(['temperature', 'respiratory-rate']);
    expect(names(background)).toEqual(['birthWeightGrams', 'gestation', 'bcg-not-given']);
  });

  it('does not repeat a measure that is among the reasons', () => {
    const { assessment } = handoverOf(baby, meaning(found('high-body-temperature', 'urgent', fever)), ['high-body-temperature'], noBox);
    expect(names(assessment)).toEqual(['respiratory-rate']);
  });

  it('leaves out what the nurse was told before', () => {
    const interpretation = meaning(found('convulsion', 'urgent', fit), found('high-body-temperature', 'urgent', fever));
    expect(handoverOf(baby, interpretation, ['high-body-temperature'], noBox).situation.map((one) => one.id)).toEqual([
      'high-body-temperature',
    ]);
  });

  it('names the sign rather than the box that gathers it, and the box when there is nothing else', () => {
    const box = (id: string): boolean => id === 'critical-illness';
    const both = meaning(found('critical-illness', 'urgent', fit), found('convulsion', 'urgent', fit));
    expect(handoverOf(baby, both, ['critical-illness', 'convulsion'], box).situation.map((one) => one.id)).toEqual(['convulsion']);
    expect(handoverOf(baby, both, ['critical-illness'], box).situation.map((one) => one.id)).toEqual(['critical-illness']);
  });

  it('has no situation when nothing is urgent, and leaves out what is not known', () => {
    const { situation, background, assessment } = handoverOf({ findings: {} }, meaning(), [], noBox);
    expect([situation, background, assessment]).toEqual([[], [], []]);
  });
});
