// The questions of a referral as they fall due: state -> time -> who is asked what, and when next.

import { describe, expect, it } from 'vitest';
import { answerFollowUp } from '../../../src/conversation/follow-up-work.ts';
import type { DueWork, ReferralRecord, WorkAnswer } from '../../../src/conversation/records.ts';
import { measure } from '../../../src/messages/segments.ts';
import {
  at,
  baby,
  clock,
  colleague,
  coordinator,
  day,
  doorNumber,
  dueWork,
  hour,
  minute,
  morning,
  nurse,
  parts,
  receiver,
  referral,
  urgentCase,
  worker,
} from '../ward.ts';

const bodies = {
  'referral-left': { hastens: false, since: morning },
  'referral-arrived': { announces: false },
  'referral-outcome': {},
  'refusal-visit': { since: morning },
} as const;
type Kind = keyof typeof bodies;

const names = new Map([
  [worker.phone, 'worker'],
  [colleague.phone, 'colleague'],
  [nurse.phone, 'nurse'],
  [receiver.phone, 'receiver'],
  [coordinator.phone, 'coordinator'],
  [doorNumber, 'door'],
]);

const texts = ({ entries }: WorkAnswer) => entries.filter((entry) => entry.kind === 'text');
const whom = (answer: WorkAnswer): string[] => texts(answer).map(({ to }) => names.get(to) ?? to);
const nextOf = ({ next }: WorkAnswer): string =>
  next.kind === 'again' ? clock(next.at) : next.kind === 'held' ? `held until ${clock(next.at)}` : next.kind;

function answer(kind: Kind, state: Partial<ReferralRecord>, now: number, more: Partial<DueWork> = {}): WorkAnswer {
  return answerFollowUp(dueWork(kind, { body: bodies[kind], referral: referral(state), dueAt: now, ...more }), at(now));
}

const left: Partial<ReferralRecord> = { state: 'left', leftAt: morning };
const arrived: Partial<ReferralRecord> = { state: 'arrived', leftAt: morning, arrivedAt: morning };

describe('a referral that is due', () => {
  // The way takes forty minutes: expected at 10:10.
  it.each<[Kind, Partial<ReferralRecord>, number, string[], string]>([
    ['referral-left', {}, 30 * minute, ['worker'], '25/11 1030'],
    ['referral-left', {}, 60 * minute, ['worker'], '25/11 1100'],
    ['referral-left', {}, 90 * minute, ['nurse', 'coordinator'], '25/11 2130'],
    ['referral-left', {}, 12 * hour, ['worker', 'nurse'], 'missed'],
    ['referral-left', { urgency: 'refer' }, day, ['worker'], '27/11 0930'],
    ['referral-left', { urgency: 'refer' }, 4 * day, ['nurse'], 'missed'],
    ['referral-arrived', left, 40 * minute, ['receiver'], '25/11 1040'],
    ['referral-arrived', left, 70 * minute, ['receiver', 'worker'], '25/11 1110'],
    ['referral-arrived', left, 100 * minute, ['nurse', 'coordinator'], '25/11 2210'],
    ['referral-arrived', left, 12 * hour + 40 * minute, ['receiver', 'worker', 'nurse'], 'missed'],
    ['referral-outcome', arrived, day, ['receiver'], '27/11 0930'],
    ['referral-outcome', arrived, 9 * day, ['receiver', 'worker'], '11/12 0930'],
    ['referral-outcome', arrived, 23 * day, ['receiver', 'worker'], '25/12 0930'],
    ['referral-outcome', arrived, 30 * day, [], 'done'],
    ['refusal-visit', { state: 'refused' }, day, ['worker'], '27/11 0930'],
    ['refusal-visit', { state: 'refused' }, 7 * day, ['worker'], '03/12 0930'],
    ['refusal-visit', { state: 'refused' }, 8 * day, ['nurse', 'coordinator'], 'missed'],
  ])('%s %j after %d ms asks %j, and then %s', (kind, state, after, asked, next) => {
    const answered = answer(kind, state, morning + after);
    expect(whom(answered)).toEqual(asked);
    expect(nextOf(answered)).toBe(next);
  });

  it.each<[Kind, ReferralRecord['state'][]]>([
    ['referral-left', ['left', 'refused', 'arrived', 'closed']],
    ['referral-arrived', ['advised', 'refused', 'arrived', 'closed']],
    ['referral-outcome', ['advised', 'left', 'refused', 'closed']],
    ['refusal-visit', ['advised', 'left', 'arrived', 'closed']],
  ])('%s is over once the referral is %j', (kind, states) => {
    for (const state of states) expect(answer(kind, { state }, morning + hour), state).toEqual({ entries: [], next: { kind: 'done' } });
    expect(answer(kind, {}, morning + hour, { referral: null })).toEqual({ entries: [], next: { kind: 'done' } });
  });

  it.each(['died', 'moved', 'erased'] as const)('is over when the baby is %s', (status) => {
    for (const kind of Object.keys(bodies) as Kind[])
      expect(answer(kind, { state: 'left' }, morning + hour, { baby: baby({ status }) })).toEqual({ entries: [], next: { kind: 'done' } });
  });

  it('is asked of who follows the baby now', () => {
    expect(whom(answer('referral-left', {}, morning + 30 * minute, { baby: baby({ worker: colleague.phone }) }))).toEqual(['colleague']);
  });

  it('is asked while no examination of the baby has reached the register yet', () => {
    const [text] = texts(answer('referral-left', {}, morning + 30 * minute, { baby: null }));
    expect(text?.text).toMatch(/^7FK girl 5 h: left for Mto Hospital\?/);
  });

  it('gives the same entries when it is answered twice', () => {
    const once = answer('referral-arrived', left, morning + 100 * minute);
    expect(answer('referral-arrived', left, morning + 100 * minute)).toEqual(once);
  });
});

describe('the texts', () => {
  it('show the digits that answer them, with the code', () => {
    const [leave] = texts(answer('referral-left', {}, morning + 30 * minute));
    expect(leave?.text).toBe('7FK girl 5 h: left for Mto Hospital? Reply like 7FK 1: 1 left, 2 not yet, 3 family refuses, 4 died');
    const [arrive] = texts(answer('referral-arrived', left, morning + 40 * minute));
    expect(arrive?.text).toBe('7FK girl 5 h of Mwangaza HC: arrived at Mto Hospital? Reply like 7FK 5: 5 arrived, 6 not there, 4 died');
  });

  it('tell the nurse whom to ring, and urgently', () => {
    const [told] = texts(answer('referral-arrived', left, morning + 100 * minute));
    expect(told?.urgent).toBe(true);
    expect(told?.text).toContain(
      'left 25/11 0930, NOBODY CONFIRMS arrival at Mto Hospital. Ring +254700555220 there, worker +254700555201',
    );
  });

  it('announce the baby with what is wrong, as much as two segments hold', () => {
    const coming = (state: Partial<ReferralRecord>): string =>
      texts(answer('referral-arrived', { ...left, ...state }, morning, { body: { announces: true } }))[0]?.text ?? '';
    expect(coming({})).toBe('7FK girl 5 h is coming from Mwangaza HC: fit. Worker +254700555201. When there, reply 7FK 5.');
    // All signs at once, as far as the protocol calls them urgent.
    const signs = [...parts.published.book.findings.values()].flatMap(({ id, kind }) => (kind === 'sign' ? [[id, true]] : []));
    const worst = { ...urgentCase, findings: { ...urgentCase.findings, ...Object.fromEntries(signs) } };
    const body = { case: worst, interpretation: parts.published.book.interpret(worst) };
    const text = coming({ body });
    expect(measure(text).segments).toBeLessThanOrEqual(2);
    expect(text).toMatch(/, \+\d+\. Worker \+254700555201\. When there, reply 7FK 5\.$/);
  });

  it('of urgent babies are never held at night, of others until morning', () => {
    const night = Date.parse('2026-11-25T23:00:00+03:00');
    const body = { hastens: false, since: night - day };
    const urgent = answer('referral-left', {}, night, { body });
    expect(new Set(texts(urgent).map((text) => clock(text.at)))).toEqual(new Set(['25/11 2300']));
    const other = answer('referral-left', { urgency: 'refer' }, night, { body });
    expect([texts(other), nextOf(other)]).toEqual([[], 'held until 26/11 0600']);
    const morningAfter = answer('referral-left', { urgency: 'refer' }, night + 7 * hour, { body });
    expect([whom(morningAfter), nextOf(morningAfter)]).toEqual([['worker'], '27/11 0600']);
  });
});

describe('where the baby is sent', () => {
  const toNobody = { ...left, receiving: 'ziwa' };

  it('nobody is on call: its number is asked, and the worker as well', () => {
    expect(whom(answer('referral-arrived', toNobody, morning + 40 * minute))).toEqual(['door', 'worker']);
  });

  it('is not on the roster: the worker is asked alone', () => {
    const answered = answer('referral-arrived', { ...left, receiving: null }, morning + 40 * minute);
    expect(whom(answered)).toEqual(['worker']);
    expect(texts(answered)[0]?.text).toContain('arrived at hospital?');
    const announced = answer('referral-arrived', { ...left, receiving: null }, morning, { body: { announces: true } });
    expect(announced).toEqual({ entries: [], next: { kind: 'done' } });
  });
});

describe('a baby that was sent without haste and is urgent since', () => {
  const older = referral({ key: 'referral:examination:b1', urgency: 'refer', at: morning - 5 * hour });
  const found = (times: Partial<DueWork>): Partial<DueWork> => ({ referral: null, baby: baby({ referral: older }), ...times });

  it('is asked of within half an hour of the alert, though its referral is the older one', () => {
    const body = { hastens: true, since: morning };
    const answered = answer('referral-left', {}, morning + 30 * minute, found({ body }));
    expect([whom(answered), nextOf(answered)]).toEqual([['worker'], '25/11 1030']);
  });

  it('is not asked twice by what was found still later', () => {
    expect(answer('referral-left', {}, morning + 30 * minute, found({ body: bodies['referral-left'] }))).toEqual({
      entries: [],
      next: { kind: 'done' },
    });
  });

  it('is waited for at the hospital as an urgent one', () => {
    const last = { key: 'examination:b1:1', at: morning, urgency: 'urgent', body: {} };
    const state = { ...left, urgency: 'refer' as const };
    expect(whom(answer('referral-arrived', state, morning + 100 * minute, { baby: baby({ last }) }))).toEqual(['nurse', 'coordinator']);
  });
});

describe('an outcome that nobody tells', () => {
  it('closes the referral as not known, and nobody pretends to have said so', () => {
    const answered = answer('referral-outcome', arrived, morning + 30 * day);
    expect(answered.entries).toMatchObject([{ kind: 'referral-news', news: 'not-known', by: 'nobody', referral: 'referral:alert:b1' }]);
  });
});
