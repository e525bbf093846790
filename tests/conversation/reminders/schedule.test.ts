// What falls due after an examination and after an alert.

import { describe, expect, it } from 'vitest';
import type { Classification } from '../../../src/clinical/protocol.ts';
import type { DueEntry, Entry } from '../../../src/conversation/records.ts';
import { followUpEntries } from '../../../src/conversation/reminders/schedule.ts';
import { alerted, caseOf, clock, examined, hour, minute, morning, parts, urgentCase } from '../ward.ts';

const due = (entries: readonly Entry[]): DueEntry[] => entries.filter((entry) => entry.kind === 'due');
const times = (entries: readonly Entry[], work: DueEntry['work']): string[] =>
  due(entries).flatMap((entry) => (entry.work === work ? [clock(entry.dueAt)] : []));
const cold = caseOf({ temperature: [35.7] });

/** A result with just these classifications. */
function resultOf(ones: readonly Omit<Classification, 'because' | 'rows'>[], at = morning) {
  const fact = examined(caseOf({}), { at });
  return { ...fact, interpretation: { ...fact.interpretation, classifications: ones.map((one) => ({ ...one, because: [], rows: [] })) } };
}

describe('looking again', () => {
  it('falls due when it was ordered, void once a later examination is there', () => {
    const [recheck] = due(followUpEntries(examined(cold), parts));
    expect(recheck).toMatchObject({
      key: 'due:examination:b1:0:recheck:60',
      work: 'recheck',
      dueAt: morning + hour,
      baby: 'b1',
      examination: 'examination:b1:0',
      body: { what: [{ key: 'classifications.moderate-hypothermia' }], isNear: true },
    });
  });

  it('is one for all that is due at the same time', () => {
    const three = resultOf([
      { id: 'moderate-hypothermia', urgency: 'treat', recheck: 'PT1H' },
      { id: 'jittery', urgency: 'treat', recheck: 'PT60M' },
      { id: 'jaundice', urgency: 'refer', within: 'P1D' },
    ]);
    const entries = followUpEntries(three, parts);
    expect(times(entries, 'recheck')).toEqual(['25/11 1030', '26/11 0930']);
    const [first] = due(entries);
    expect(first?.body).toMatchObject({ what: [{ key: 'classifications.moderate-hypothermia' }, { key: 'classifications.jittery' }] });
  });

  it('is not asked for what is urgent, which is sent away', () => {
    expect(times(followUpEntries(examined(urgentCase), parts), 'recheck')).toEqual([]);
  });

  it('within hours of the examination comes in the night too, later ones after it', () => {
    const night = morning + 13 * hour;
    expect(times(followUpEntries(examined(cold, { at: night }), parts), 'recheck')).toEqual(['25/11 2330']);
    const tomorrow = resultOf([{ id: 'eye-pus', urgency: 'treat', recheck: 'P1D' }], night);
    expect(times(followUpEntries(tomorrow, parts), 'recheck')).toEqual(['27/11 0600']);
  });
});

describe('the next contact', () => {
  const contacts = (entries: readonly Entry[]): unknown[] =>
    due(entries).flatMap(({ work, key, dueAt }) => (work === 'contact' ? [[key.split(':').at(-1), clock(dueAt)]] : []));

  // Contacts from 48 and 168 hours on: the shipped schedule, contacts.yaml.
  it('of a well baby on its first day is the second one, by its age', () => {
    expect(contacts(followUpEntries(examined(caseOf({})), parts))).toEqual([['2', '27/11 0600']]);
  });

  it('after a contact is the one after it', () => {
    const aCase = caseOf({}, { ageHours: 50 });
    const { examination } = examined(aCase);
    const fact = examined(aCase, { examination: { ...examination, flow: 'postnatal-contact' } });
    expect(contacts(followUpEntries(fact, parts))).toEqual([['3', '30/11 0730']]);
  });

  it('is not lost when the baby is looked at again after it fell due', () => {
    const aCase = caseOf({}, { ageHours: 50 });
    const { examination } = examined(aCase);
    const again = { ...examination, flow: 'recheck', earlier: ['first-day-exam'], startedAt: morning - 46 * hour };
    expect(contacts(followUpEntries(examined(aCase, { examination: again }), parts))).toEqual([['2', '25/11 0930']]);
  });

  it('of a baby whose age nobody knows comes some days after the examination', () => {
    expect(contacts(followUpEntries(examined(caseOf({}, { ageHours: null })), parts))).toEqual([['age-not-known', '27/11 0930']]);
  });

  it('is none once the schedule is over', () => {
    expect(contacts(followUpEntries(examined(caseOf({}, { ageHours: 1300 })), parts))).toEqual([]);
  });
});

describe('a referral', () => {
  it('of an urgent baby is opened by the alert already, and asked of after half an hour', () => {
    const [entry, left, ...more] = followUpEntries(alerted(urgentCase), parts);
    expect(entry).toMatchObject({ kind: 'referral', key: 'referral:alert:b1', urgency: 'urgent', receiving: 'mto', code: '7FK' });
    expect(left).toMatchObject({ work: 'referral-left', dueAt: morning + 30 * minute, referral: 'referral:alert:b1' });
    expect(more).toEqual([]);
  });

  it.each([
    ['urgent', urgentCase, '25/11 1000'],
    ['refer', caseOf({}), '26/11 0930'],
  ])('of a baby that is %s is opened by its result', (urgency, aCase, asked) => {
    const interpretation = { ...examined(aCase).interpretation, urgency: urgency as 'urgent' };
    const entries = followUpEntries(examined(aCase, { interpretation }), parts);
    expect(entries.find(({ kind }) => kind === 'referral')).toMatchObject({ key: 'referral:examination:b1', urgency });
    expect(times(entries, 'referral-left')).toEqual([asked]);
  });

  it.each(['treat', 'routine', 'incomplete'] as const)('is not opened for a baby that is %s', (urgency) => {
    const fact = examined(caseOf({}));
    const entries = followUpEntries({ ...fact, interpretation: { ...fact.interpretation, urgency } }, parts);
    expect(entries.some(({ kind }) => kind === 'referral')).toBe(false);
  });

  it('is not opened when an alert is taken back', () => {
    expect(followUpEntries(alerted(caseOf({}), { news: [], isUpdate: true }), parts)).toEqual([]);
  });

  it('has nowhere to go when the roster does not say where', () => {
    const [entry] = followUpEntries(alerted(urgentCase, { facility: 'bonde' }), parts);
    expect(entry).toMatchObject({ kind: 'referral', receiving: null });
  });
});

describe('the same fact twice', () => {
  it.each([
    ['examination', examined(caseOf({ temperature: [35.7] }))],
    ['urgent examination', examined(urgentCase)],
    ['alert', alerted(urgentCase)],
  ])('gives the same entries: %s', (_, fact) => {
    const once = followUpEntries(fact, parts);
    expect(followUpEntries(structuredClone(fact), parts)).toEqual(once);
    expect(new Set(once.map(({ key }) => key)).size).toBe(once.length);
  });

  it('at another revision keeps nothing of the first', () => {
    const keys = (key: string): string[] => due(followUpEntries(examined(cold, { key }), parts)).map((one) => one.key);
    expect(keys('examination:b1:0').filter((key) => keys('examination:b1:1').includes(key))).toEqual([]);
  });

  it('survives being kept as text', () => {
    const once = followUpEntries(examined(cold), parts);
    expect(JSON.parse(JSON.stringify(once))).toEqual(once);
  });
});
