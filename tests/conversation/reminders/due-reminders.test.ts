// Reminders to look again and of the next contact: sent, sent once more, missed.

import { describe, expect, it } from 'vitest';
import { answerFollowUp } from '../../../src/conversation/follow-up-work.ts';
import type { DueWork, WorkAnswer } from '../../../src/conversation/records.ts';
import { at, baby, clock, colleague, day, dueWork, morning, referral, worker } from '../ward.ts';

const bodies = {
  recheck: { what: [{ key: 'classifications.moderate-hypothermia' }], isNear: true, from: morning },
  contact: { contact: '2', from: morning, to: morning + day },
} as const;

function answer(kind: keyof typeof bodies, times: number, now = morning, more: Partial<DueWork> = {}): WorkAnswer {
  return answerFollowUp(dueWork(kind, { body: bodies[kind], times, dueAt: now, ...more }), at(now));
}

const said = ({ entries }: WorkAnswer): [string, string, string][] =>
  entries.flatMap((one): [string, string, string][] => (one.kind === 'text' ? [[one.to, clock(one.at), one.text]] : []));
const nextOf = ({ next }: WorkAnswer): string =>
  next.kind === 'again' ? clock(next.at) : next.kind === 'held' ? `held until ${clock(next.at)}` : next.kind;

describe('a reminder', () => {
  it.each([
    ['recheck', 0, '7FK girl 5 h: look again now: cold. Text 7FK to begin.', '25/11 1030'],
    ['recheck', 1, '7FK girl 5 h: not looked at again yet: cold. Text 7FK to begin.', '25/11 1030'],
    ['contact', 0, '7FK girl 5 h: next check due, 25/11 to 26/11. Text 7FK to begin.', '26/11 0930'],
    ['contact', 1, '7FK girl 5 h: check not done yet, due 25/11 to 26/11. Text 7FK to begin.', '26/11 0930'],
  ] as const)('%s, time %d', (kind, times, text, next) => {
    const answered = answer(kind, times);
    expect(said(answered)).toEqual([[worker.phone, '25/11 0930', text]]);
    expect(nextOf(answered)).toBe(next);
  });

  it.each(['recheck', 'contact'] as const)('that was sent twice is missed, and no third one is sent: %s', (kind) => {
    expect(answer(kind, 2)).toEqual({ entries: [], next: { kind: 'missed' } });
  });

  it('has a key of its own each time', () => {
    const keys = [0, 1].flatMap((times) => answer('contact', times).entries.map(({ key }) => key));
    expect(new Set(keys).size).toBe(2);
  });

  it('goes to who follows the baby now, in her language', () => {
    const [[to, , text] = []] = said(answer('recheck', 0, morning, { baby: baby({ worker: colleague.phone }) }));
    expect(to).toBe(colleague.phone);
    expect(text).toMatch(/^7FK wa kike/);
  });

  it.each(['died', 'moved', 'erased'] as const)('is never sent for a baby that is %s', (status) => {
    for (const kind of ['recheck', 'contact'] as const)
      expect(answer(kind, 0, morning, { baby: baby({ status }) })).toEqual({ entries: [], next: { kind: 'done' } });
  });

  it('is never sent for a baby that the register does not know', () => {
    expect(answer('recheck', 0, morning, { baby: null })).toEqual({ entries: [], next: { kind: 'done' } });
  });
});

describe('while the baby is sent away', () => {
  it.each([
    ['advised', 1],
    ['refused', 1],
    ['left', 0],
    ['arrived', 0],
  ] as const)('%s: looking again is asked of her only where she has the baby', (state, sent) => {
    expect(said(answer('recheck', 0, morning, { baby: baby({ referral: referral({ state }) }) }))).toHaveLength(sent);
  });

  it('the next contact is still due', () => {
    expect(said(answer('contact', 0, morning, { baby: baby({ referral: referral({ state: 'arrived' }) }) }))).toHaveLength(1);
  });
});

describe('at night', () => {
  const night = Date.parse('2026-11-25T23:00:00+03:00');

  it('a recheck that was ordered within hours comes, and again', () => {
    const answered = answer('recheck', 0, night);
    expect(said(answered)[0]?.[1]).toBe('25/11 2300');
    expect(nextOf(answered)).toBe('26/11 0000');
  });

  it('nothing else is written: a baby that dies before morning is not asked after', () => {
    const later = { ...bodies.recheck, isNear: false };
    for (const held of [answer('recheck', 0, night, { body: later }), answer('contact', 1, night)])
      expect([said(held), nextOf(held)]).toEqual([[], 'held until 26/11 0600']);
  });

  it('the second reminder of one that came in the evening waits too', () => {
    const evening = Date.parse('2026-11-25T20:30:00+03:00');
    expect(nextOf(answer('recheck', 0, evening, { body: { ...bodies.recheck, isNear: false } }))).toBe('26/11 0600');
  });
});
