// Whatever is heard of an urgent referral, in whatever order, late or never: while it is open, either something is still due
// that will ask somebody, or somebody was alerted. Played on the pure parts, with a register of a few lines.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerFollowUp } from '../../../src/conversation/follow-up-work.ts';
import { newsEntries } from '../../../src/conversation/news-entries.ts';
import type { BabyRecord, DueEntry, Entry, ReferralRecord, TextEntry } from '../../../src/conversation/records.ts';
import { followUpEntries } from '../../../src/conversation/reminders/schedule.ts';
import { type ReferralNews, referralNews } from '../../../src/dialog/referral-question.ts';
import { referralAfter } from '../../../src/on-call/referral.ts';
import { alerted, at, baby, coordinator, hour, minute, morning, nurse, parts, receiver, referral, urgentCase, worker } from '../ward.ts';

interface World {
  referral: ReferralRecord;
  baby: BabyRecord;
  readonly due: Map<string, { entry: DueEntry; dueAt: number; times: number; state: 'pending' | 'done' | 'missed' }>;
  readonly texts: Map<string, TextEntry>;
  now: number;
}

function begin(receiving: string | null): World {
  const world: World = { referral: referral({ receiving, at: morning }), baby: baby(), due: new Map(), texts: new Map(), now: morning };
  keep(world, followUpEntries(alerted(urgentCase), parts));
  return world;
}

/** As the register keeps entries: each key once, news applied as src/on-call/referral.ts says, nothing due for a baby that died. */
function keep(world: World, entries: readonly Entry[]): void {
  for (const entry of entries) {
    if (entry.kind === 'text' && !world.texts.has(entry.key)) world.texts.set(entry.key, entry);
    if (entry.kind === 'due' && !world.due.has(entry.key))
      world.due.set(entry.key, { entry, dueAt: entry.dueAt, times: 0, state: 'pending' });
    if (entry.kind === 'baby-news' && entry.news !== 'handed-over') world.baby = { ...world.baby, status: entry.news };
    if (entry.kind !== 'referral-news') continue;
    const state = referralAfter(world.referral.state, entry.news);
    const { leftAt, arrivedAt } = world.referral;
    world.referral = {
      ...world.referral,
      state,
      leftAt: entry.news === 'left' ? (leftAt ?? entry.at) : leftAt,
      arrivedAt: entry.news === 'arrived' || entry.news === 'still-in-care' ? (arrivedAt ?? entry.at) : arrivedAt,
    };
  }
}

/** Answers what is due by then, each piece late by so many minutes. */
function passUntil(world: World, until: number, lateMinutes: number): void {
  for (;;) {
    const pending = [...world.due.values()].filter(({ state }) => state === 'pending').sort((a, b) => a.dueAt - b.dueAt);
    const [first] = pending;
    if (first === undefined || first.dueAt > until) break;
    world.now = Math.max(world.now, first.dueAt) + lateMinutes * minute;
    const { key, work, body, referral: of } = first.entry;
    const record = of === world.referral.key ? world.referral : null;
    const due = { key, work, body, dueAt: first.dueAt, times: first.times, baby: world.baby, alert: null, referral: record };
    const { entries, next } = answerFollowUp(due, at(world.now));
    keep(world, entries);
    if (next.kind !== 'held') first.times += 1;
    if (next.kind === 'again' || next.kind === 'held') {
      expect(next.at, 'due again in the future').toBeGreaterThan(world.now);
      first.dueAt = next.at;
    } else first.state = next.kind;
  }
  world.now = Math.max(world.now, until);
}

function tell(world: World, news: ReferralNews, by: string, message: number): void {
  const { key, baby: id, code, facility } = world.referral;
  const named = { baby: id, code, facility, worker: worker.phone, at: world.now, sex: 'girl', bornAt: morning - 5 * hour } as const;
  keep(
    world,
    newsEntries({ kind: 'referral-news', key: `referral-news:${message}`, referral: key, news, reason: null, by, ...named }, parts),
  );
}

const alertsNurse = (text: TextEntry): boolean => text.to === nurse.phone && text.urgent;
const isPending = (world: World): boolean =>
  [...world.due.values()].some(({ state, entry }) => state === 'pending' && entry.work !== 'recheck');

const events = fc.array(
  fc.record({
    afterMinutes: fc.integer({ min: 0, max: 3 * 24 * 60 }),
    lateMinutes: fc.constantFrom(0, 1, 7, 45, 400),
    news: fc.constantFrom<(ReferralNews | null)[]>(...referralNews, null, null, null),
    by: fc.constantFrom(worker.phone, receiver.phone, coordinator.phone),
  }),
  { maxLength: 12 },
);
const places = fc.constantFrom('mto', 'ziwa', null);

describe('an open urgent referral', () => {
  it('has something due that will ask somebody, or somebody was alerted, whatever is heard and when', () => {
    fc.assert(
      fc.property(places, events, (receiving, all) => {
        const world = begin(receiving);
        for (const [message, { afterMinutes, lateMinutes, news, by }] of all.entries()) {
          passUntil(world, world.now + afterMinutes * minute, lateMinutes);
          if (news !== null) tell(world, news, by, message);
          const wasAlerted = [...world.texts.values()].some(alertsNurse);
          const isClosed = world.referral.state === 'closed' || world.baby.status !== 'followed';
          expect(isClosed || isPending(world) || wasAlerted).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('of which nobody ever tells anything reaches the nurse within two hours, and the coordinator', () => {
    for (const receiving of ['mto', 'ziwa', null]) {
      const world = begin(receiving);
      passUntil(world, morning + 2 * hour, 0);
      expect([...world.texts.values()].some(alertsNurse)).toBe(true);
      expect([...world.texts.values()].some(({ to }) => to === coordinator.phone)).toBe(true);
    }
  });

  it('of a baby that left and never came reaches the nurse within two hours of when it was due there', () => {
    const world = begin('mto');
    tell(world, 'left', worker.phone, 1);
    passUntil(world, morning + 40 * minute + 2 * hour, 0);
    const told = [...world.texts.values()].filter(alertsNurse);
    expect(told.map(({ text }) => text).join()).toContain('NOBODY CONFIRMS arrival');
  });

  it('comes to an end: nothing is due for ever', () => {
    fc.assert(
      fc.property(places, events, (receiving, all) => {
        const world = begin(receiving);
        for (const [message, { afterMinutes, lateMinutes, news, by }] of all.entries()) {
          passUntil(world, world.now + afterMinutes * minute, lateMinutes);
          if (news !== null) tell(world, news, by, message);
        }
        passUntil(world, world.now + 60 * 24 * hour, 0);
        expect(isPending(world)).toBe(false);
        expect(world.referral.state).not.toBe('arrived');
      }),
    );
  });

  it('asks nothing of a baby that died', () => {
    fc.assert(
      fc.property(events, (all) => {
        const world = begin('mto');
        tell(world, 'died', worker.phone, -1);
        const before = new Set(world.texts.keys());
        for (const [message, { afterMinutes, news, by }] of all.entries()) {
          passUntil(world, world.now + afterMinutes * minute, 0);
          if (news === null) continue;
          tell(world, 'not-left', by, message);
        }
        passUntil(world, world.now + 60 * 24 * hour, 0);
        expect([...world.texts.keys()].filter((key) => !before.has(key))).toEqual([]);
      }),
    );
  });
});
