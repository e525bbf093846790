// What to do, of classifications that can be more or less urgent: nobody is sent for review, or packed for a journey, who is cared for
// where the baby is. Rows GA-01, HR-08, RISK-06, COL-12, DEHY-02, WT-34 and FU-05 of the reference (flows/protocol/rows.yaml).

import { describe, expect, it } from 'vitest';
import { interpret } from '../../src/clinical/interpret.ts';
import type { Case } from '../../src/clinical/protocol.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

const baby = { ageHours: 30, sex: 'girl', gestation: { weeks: 39 }, birthWeightGrams: 3200, unlisted: 'normal' } as const;
const review = 'advice.refer-for-review';
const way = 'advice.skin-to-skin-on-the-way';
const note = 'advice.go-with-mother-and-note';

interface Told {
  readonly of: string;
  readonly case: Partial<Case>;
  readonly urgency: string;
  readonly says: readonly string[];
  readonly doesNotSay: readonly string[];
}

const early = { gestation: { weeks: 27 }, birthWeightGrams: 1600, weightGrams: 1700 };
const dry = { 'sunken-eyes': true, 'dry-tongue': true };
const pneumonia = { 'pneumonia-fast-breathing-only': 72 };

describe('advice', () => {
  it.each<Told>([
    {
      of: 'a murmur on day 1',
      case: { ageHours: 12, findings: { 'heart-murmur': true } },
      urgency: 'treat',
      says: [],
      doesNotSay: [review],
    },
    {
      of: 'a murmur on day 3',
      case: { ageHours: 60, findings: { 'heart-murmur': true } },
      urgency: 'refer',
      says: [review],
      doesNotSay: [],
    },
    {
      of: 'a mother treated for syphilis',
      case: { findings: { 'mother-syphilis': 'positive-fully-treated' } },
      urgency: 'routine',
      says: [],
      doesNotSay: [review],
    },
    { of: '27 weeks, just born', case: { ...early, ageHours: 2, findings: {} }, urgency: 'urgent', says: [way, note], doesNotSay: [] },
    {
      of: '27 weeks, ten days old',
      case: { ...early, ageHours: 240, findings: {} },
      urgency: 'treat',
      says: ['advice.kangaroo-care'],
      doesNotSay: [way, note],
    },
    {
      of: 'purple spots of the face after a tight cord',
      case: { findings: { 'purple-spots': 'face-or-scalp', 'tight-cord-at-birth': true } },
      urgency: 'treat',
      says: ['advice.look-for-new-spots'],
      doesNotSay: [note],
    },
    {
      of: 'some dehydration',
      case: { findings: dry },
      urgency: 'treat',
      says: ['advice.ors-over-four-hours'],
      doesNotSay: ['advice.sips-of-ors-on-the-way'],
    },
    {
      of: 'some dehydration that stays',
      case: { findings: dry, givenBefore: { 'some-dehydration': 4 } },
      urgency: 'urgent',
      says: ['advice.sips-of-ors-on-the-way'],
      doesNotSay: ['advice.ors-over-four-hours'],
    },
    {
      of: 'birth weight not regained on day 15',
      case: { ageHours: 350, weightGrams: 3190, findings: {} },
      urgency: 'treat',
      says: ['advice.weigh-again'],
      doesNotSay: [review],
    },
    {
      of: 'birth weight not regained on day 22',
      case: { ageHours: 520, weightGrams: 3190, findings: {} },
      urgency: 'refer',
      says: [review],
      doesNotSay: [],
    },
    {
      of: 'pneumonia that was helped',
      case: { ageHours: 288, findings: { 'respiratory-rate': [66, 64, 48] }, givenBefore: pneumonia },
      urgency: 'routine',
      says: ['advice.finish-amoxicillin'],
      doesNotSay: ['advice.amoxicillin-seven-days'],
    },
    {
      of: 'pneumonia that was not helped',
      case: { ageHours: 288, findings: { 'respiratory-rate': [66, 64, 66] }, givenBefore: pneumonia },
      urgency: 'treat',
      says: ['advice.amoxicillin-seven-days'],
      doesNotSay: ['advice.finish-amoxicillin'],
    },
  ])('of $of ($urgency)', ({ case: own, urgency, says, doesNotSay }) => {
    const said = interpret(defaultProtocol, { ...baby, findings: {}, ...own });
    expect(said.urgency).toBe(urgency);
    expect(said.advice).toEqual(expect.arrayContaining([...says]));
    expect(said.advice.filter((one) => doesNotSay.includes(one))).toEqual([]);
  });
});
