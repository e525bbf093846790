// A baby leaves a worker's care: handed over to a colleague, moved away, or died. The last two are asked back, for they stop
// all that is due. After a death nothing is advised and nothing is offered.

import type { Caller } from './book.ts';
import type { BabyNewsFact } from './facts.ts';
import { namePhrase } from './followed.ts';
import { settled, type Turn } from './proceed.ts';
import { type Option, type Reply, type Say, say } from './reply.ts';
import type { NamedBaby, Session } from './session.ts';
import { forget } from './take-up.ts';

/** Digits that a list has. */
const mostShown = 9;

export function askSure(session: Session, baby: NamedBaby, news: 'died' | 'moved', now: number, told: readonly Say[] = [], page = 0): Turn {
  const question = { title: say(`followed.sure.${news}`, { name: namePhrase(baby, now) }), options: [], tail: [] };
  const reply: Reply = { told, question, page, ends: false };
  return { session: { ...settled(session), view: 'followed', followed: { of: 'sure', baby, news }, told, page }, reply, facts: [] };
}

export function diedTurn(session: Session, baby: NamedBaby, caller: Caller, now: number): Turn {
  return parted(forget(session, baby.id), baby, { news: 'died', to: null }, say('followed.died', { code: baby.code }), caller, now);
}

export function movedTurn(session: Session, baby: NamedBaby, caller: Caller, now: number): Turn {
  return parted(forget(session, baby.id), baby, { news: 'moved', to: null }, say('followed.moved', { code: baby.code }), caller, now);
}

interface Recipient {
  readonly phone: string;
  readonly name: Say;
}

export function askHandOver(session: Session, baby: NamedBaby, told: readonly Say[], caller: Caller, now: number, page = 0): Turn {
  const shown = recipientsOf(baby, caller).slice(0, mostShown);
  const options = shown.map(({ name }, at): Option => ({ digit: String(at + 1), label: name }));
  const reply: Reply = {
    told,
    question: { title: say('followed.hand-over', { name: namePhrase(baby, now) }), options, tail: [] },
    page,
    ends: false,
  };
  const followed = { of: 'hand-over', baby, to: shown.map(({ phone }) => phone) } as const;
  return { session: { ...settled(session), view: 'followed', followed, told, page }, reply, facts: [] };
}

/** Null: that worker is no longer on the roster of this facility. */
export function handOverTurn(session: Session, baby: NamedBaby, to: string, caller: Caller, now: number): Turn | null {
  const recipient = recipientsOf(baby, caller).find(({ phone }) => phone === to);
  if (recipient === undefined) return null;
  const said = say(to === caller.phone ? 'followed.taken-over' : 'followed.handed-over', { code: baby.code, worker: recipient.name });
  return parted(session, baby, { news: 'handed-over', to }, said, caller, now);
}

/** A baby that a colleague follows may be taken over by the caller herself. */
function recipientsOf(baby: NamedBaby, caller: Caller): Recipient[] {
  const others = (caller.colleagues ?? []).map(({ phone, name }) => ({ phone, name: say('verbatim', { text: name }) }));
  return [{ phone: caller.phone, name: say('followed.me') }, ...others].filter(({ phone }) => phone !== baby.worker);
}

function parted(session: Session, baby: NamedBaby, news: Pick<BabyNewsFact, 'news' | 'to'>, said: Say, caller: Caller, at: number): Turn {
  const { id, code, worker, sex, bornAt, referral } = baby;
  const fact: BabyNewsFact = {
    kind: 'baby-news',
    key: `baby-news:${caller.message ?? `${caller.phone}-${at}`}`,
    ...{ baby: id, code, worker, by: caller.phone, facility: caller.facility, sex, bornAt },
    at,
    ...news,
    referral: referral?.key ?? null,
  };
  return { session: settled(session), reply: { told: [said], page: 0, ends: true }, facts: [fact] };
}
