// What may be done with one baby that is followed: look again, a later contact, read its result, tell of its referral, hand
// it over, say that it moved away or died. Pure questions and the examinations that they begin. Next: parting.ts.

import type { Book, Caller } from './book.ts';
import { type FollowedBaby, namePhrase } from './followed.ts';
import { beginContactOf, lookAgainAt } from './known-baby.ts';
import { proceed, settled, type Turn } from './proceed.ts';
import { type Reply, type Say, say } from './reply.ts';
import type { BabyAction, Examination, NamedBaby, Session } from './session.ts';
import { halfwayOf, takeUp } from './take-up.ts';

/** The choices, each with its digit. */
export function babyMenu(session: Session, baby: NamedBaby, told: readonly Say[], caller: Caller, now: number, page = 0): Turn {
  const actions = actionsFor(baby, caller);
  const options = actions.map((action, at) => ({ digit: String(at + 1), label: say(`followed.action.${action}`) }));
  const reply: Reply = {
    told,
    question: { title: say('followed.title', { name: namePhrase(baby, now) }), options, tail: [] },
    page,
    ends: false,
  };
  return { session: { ...settled(session), view: 'followed', followed: { of: 'baby', baby, actions }, told, page }, reply, facts: [] };
}

function actionsFor(baby: NamedBaby, caller: Caller): BabyAction[] {
  const canHandOver = baby.worker !== caller.phone || (caller.colleagues ?? []).length > 0;
  return [
    ...(baby.hasResult ? (['recheck'] as const) : []),
    'contact',
    ...(baby.hasResult ? (['result'] as const) : []),
    ...(baby.referral === null ? [] : (['referral'] as const)),
    ...(canHandOver ? (['hand-over'] as const) : []),
    'moved',
    'died',
  ];
}

/** The examination is begun, or the result read; null: there is nothing to go on from. */
export function seeBaby(
  session: Session,
  baby: FollowedBaby,
  action: 'recheck' | 'contact' | 'result',
  caller: Caller,
  book: Book,
  now: number,
): Turn | null {
  const told = [say('followed.begun', { name: namePhrase(baby, now), code: baby.code })];
  const see = (examination: Examination, said: readonly Say[]): Turn =>
    proceed(takeUp(session, examination), examination, said, caller, book, now);
  const halfway = action === 'result' ? undefined : halfwayOf(session, baby.id);
  if (halfway?.flow === book.flowFor[action === 'contact' ? 'contact' : 'recheck']) return see(halfway, told);
  if (action === 'contact') return see(beginContactOf(baby, caller, book, now), told);
  if (baby.last === null) return null;
  return action === 'recheck' ? see(lookAgainAt(baby, baby.last, caller, book, now), told) : see(baby.last, []);
}

/** What a baby that was opened by its code or digit is due for now. */
export function dueNow(baby: FollowedBaby, now: number): 'recheck' | 'contact' | null {
  const due = baby.due.find(({ dueAt, isMissed }) => isMissed || dueAt <= now);
  if (due === undefined) return null;
  if (due.work === 'contact') return 'contact';
  return baby.last === null ? 'contact' : 'recheck';
}
