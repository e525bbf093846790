// The list of babies that a worker follows: who is due, who is late, whose referral is open, each with a digit. The session
// keeps only which baby each digit was shown for; the words are made anew from the register. Next: following.ts.

import type { Caller } from './book.ts';
import { dayText, whenText } from './dates.ts';
import { type DueNext, type FollowedBaby, namePhrase } from './followed.ts';
import { settled, type Turn } from './proceed.ts';
import { type Option, type Say, say } from './reply.ts';
import type { Session } from './session.ts';

/** Digits that a list has. */
const mostShown = 9;
/** Things that are said of one baby. */
const mostSaid = 2;

interface Shown {
  /** Asked for by this code, which they share. */
  readonly code?: string;
  readonly told?: readonly Say[];
}

/** What is due soonest first; the babies of a code as they are given. Told and no question when there are none. */
export function listTurn(session: Session, babies: readonly FollowedBaby[], caller: Caller, now: number, { code, told = [] }: Shown): Turn {
  const shown = babies.slice(0, mostShown);
  const more: Say[] = babies.length > shown.length ? [say('followed.and-more', { count: babies.length - shown.length })] : [];
  const all = [...told, ...more];
  if (shown.length === 0) {
    const reply = { told: [...all, say('followed.nothing-due')], page: 0, ends: session.open === null };
    return { session: settled(session), reply, facts: [] };
  }
  const followed = { of: 'list', babies: shown.map(({ id }) => id), ...(code === undefined ? {} : { code }) } as const;
  return pageOf({ ...settled(session), view: 'followed', followed, told: all }, shown, caller, now, 0);
}

/** Another page of the list that stands: every digit where it was; a baby that is not due any more is said to be done. */
export function listPage(session: Session, babies: readonly FollowedBaby[], caller: Caller, now: number, page: number): Turn {
  const ids = session.followed?.of === 'list' ? session.followed.babies : [];
  const shown = ids.map((id) => babies.find((one) => one.id === id));
  return pageOf({ ...session, view: 'followed' }, shown, caller, now, page);
}

function pageOf(session: Session, shown: readonly (FollowedBaby | undefined)[], caller: Caller, now: number, page: number): Turn {
  const options = shown.map(
    (baby, at): Option => ({ digit: String(at + 1), label: baby ? lineOf(baby, caller, now) : say('followed.done') }),
  );
  const code = session.followed?.of === 'list' ? session.followed.code : undefined;
  const title = code === undefined ? say('followed.list') : say('followed.which', { code });
  return {
    session: { ...session, page },
    reply: { told: session.told, question: { title, options, tail: [] }, page, ends: false },
    facts: [],
  };
}

/** "7FK girl 2 days: left? look again 1040" */
function lineOf(baby: FollowedBaby, { zone }: Caller, now: number): Say {
  const name = namePhrase(baby, now);
  const referral = baby.referral === null ? [] : [say(`followed.referral.${baby.referral.state}`)];
  const what = [...referral, ...baby.due.map((one) => duePhrase(one, now, zone))].slice(0, mostSaid);
  return what.length === 0 ? name : say('followed.line', { name, what });
}

function duePhrase({ work, dueAt, lateAt, isMissed }: DueNext, now: number, zone: string): Say {
  const when = work === 'recheck' ? whenText(dueAt, now, zone) : dayText(dueAt, zone);
  return say(isMissed || lateAt < now ? 'followed.late' : 'followed.due', { what: say(`followed.work.${work}`), when });
}
