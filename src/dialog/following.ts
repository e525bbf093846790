// Turns about babies of the register: the list, a code, and the digits of what stands about one of them. What the register
// must be asked for is asked for by `lookUp`, and the turn is taken again with what was found. Called by turn.ts.
// Next: list-view.ts, baby-view.ts, referral-view.ts, parting.ts.

import { babyMenu, dueNow, seeBaby } from './baby-view.ts';
import type { Book, Caller } from './book.ts';
import { type Coded, isForNurse } from './code-in.ts';
import { type Answered, answerTo, type FollowedBaby, type LookUp, namedBaby } from './followed.ts';
import { isReadable } from './known-baby.ts';
import { listPage, listTurn } from './list-view.ts';
import { chosen } from './menu.ts';
import { askHandOver, askSure, diedTurn, handOverTurn, movedTurn } from './parting.ts';
import { missed, proceed, settled, showMenu, type Turn } from './proceed.ts';
import { tokens } from './readings/tokens.ts';
import { type ReferralAnswer, referralAnswerIn, refusalReasons } from './referral-question.ts';
import { answersReferral, askReason, askReferral, otherDigit, tellReason, tellReferral } from './referral-view.ts';
import { type Say, say } from './reply.ts';
import type { Following, NamedBaby, Session } from './session.ts';
import { halfwayOf, takeUp } from './take-up.ts';

/** What every turn about the register is taken with. */
export interface Asking {
  readonly caller: Caller;
  readonly book: Book;
  readonly now: number;
  /** What the register answered so far. */
  readonly answers?: readonly Answered[];
}

/** Asks for what is not there yet, says that it cannot be had, or goes on with the babies found. */
function withFound(session: Session, lookUp: LookUp, asking: Asking, take: (babies: readonly FollowedBaby[]) => Turn | null): Turn | null {
  const { caller, book, now, answers = [] } = asking;
  const found = answerTo(lookUp, answers);
  if (found === undefined) return { session, reply: { told: [], page: 0, ends: false }, facts: [], lookUp };
  if (found.kind === 'away') {
    const isLost = lookUp.kind === 'code' && isForNurse(lookUp);
    const told = [say(isLost ? 'followed.not-sent' : 'followed.away', { nurse: caller.nurse })];
    // A digit of the list is sent again as it was. After a code the menu stands, which names the baby in hand: a digit sent to this
    // reply must not answer the question that stood before it, hours ago and of another baby.
    return lookUp.kind === 'baby'
      ? { session, reply: { told, page: 0, ends: false }, facts: [] }
      : showMenu(session, told, caller, book, now);
  }
  return take(found.babies.map((baby) => (baby.last === null || isReadable(baby.last, book) ? baby : { ...baby, last: null })));
}

export function showList(session: Session, told: readonly Say[], asking: Asking): Turn {
  const { caller, now } = asking;
  const turn = withFound(session, { kind: 'list' }, asking, (babies) => listTurn(session, babies, caller, now, { told }));
  return turn ?? { session, reply: { told: [], page: 0, ends: false }, facts: [] };
}

/**
 * The baby of a code, or the choice among those that share it; null: no baby of her facility has it.
 *
 * Takes    wanted: what is to be begun whatever is due (RECHECK 7FK).
 */
export function openCode(session: Session, { code, rest }: Coded, wanted: 'recheck' | 'contact' | null, asking: Asking): Turn | null {
  const { caller, now } = asking;
  return withFound(session, { kind: 'code', code, rest }, asking, (babies) => {
    const [baby, ...others] = babies;
    if (baby === undefined) return null;
    if (others.length > 0) return listTurn(session, ownFirst(babies, caller), caller, now, { code });
    const begun = wanted === null ? null : seeBaby(session, baby, wanted, caller, asking.book, now);
    return begun ?? said(session, baby, rest, asking);
  });
}

function ownFirst(babies: readonly FollowedBaby[], { phone }: Caller): FollowedBaby[] {
  return [...babies].sort((a, b) => Number(b.worker === phone) - Number(a.worker === phone));
}

/** What was said after the code: digits about its referral; words, which nobody has taken. */
function said(session: Session, baby: FollowedBaby, rest: string, asking: Asking): Turn {
  const { caller, now } = asking;
  const answer = referralAnswerIn(rest);
  if (answer !== null && baby.referral !== null) return tellReferral(session, namedBaby(baby), answer, caller, now);
  const told = isForNurse({ rest })
    ? [say('followed.not-sent', { nurse: caller.nurse })]
    : answer === null
      ? []
      : [say('followed.no-referral', { code: baby.code })];
  return rest === '' ? openBaby(session, baby, asking) : babyMenu(session, namedBaby(baby), told, caller, now);
}

/** What is most wanted of it: news of its referral, the examination that is due, else the choice. */
function openBaby(session: Session, baby: FollowedBaby, asking: Asking): Turn {
  const { caller, book, now } = asking;
  const named = namedBaby(baby);
  const due = dueNow(baby, now);
  const halfway = halfwayOf(session, baby.id);
  const { referral } = baby;
  // A family that refused is visited; a baby that was sent without haste is still looked at when that is due.
  const isAwaited = referral !== null && referral.state !== 'refused' && (referral.urgency === 'urgent' || due === null);
  const choice = (): Turn => (referral === null ? babyMenu : askReferral)(session, named, [], caller, now);
  if (isAwaited) return choice();
  // Sent again while its examination is in hand, the code asks for something else.
  if (halfway !== undefined)
    return halfway.id === session.open?.id ? choice() : proceed(takeUp(session, halfway), halfway, [], caller, book, now);
  return (due === null ? null : seeBaby(session, baby, due, caller, book, now)) ?? choice();
}

type Standing = Session & { readonly followed: Following };

/** An answer to what stands about followed babies. */
export function chooseFollowed(session: Standing, text: string, asking: Asking): Turn {
  const { caller, now } = asking;
  const { followed } = session;
  const [piece = '', ...more] = tokens(text);
  const digit = more.length === 0 ? piece : '';
  const again = (): Turn => missed(session, (told) => askAgain(session, told, asking), caller, text);
  switch (followed.of) {
    case 'list': {
      const id = chosen(followed.babies, digit);
      return id === undefined ? again() : openListed(session, id, asking);
    }
    case 'baby': {
      const action = chosen(followed.actions, digit);
      return action === undefined ? again() : act(session, followed.baby, action, asking);
    }
    case 'referral': {
      if (digit === otherDigit) return babyMenu(session, followed.baby, [], caller, now);
      const answer = answerShown(text, followed.baby);
      return answer === null ? again() : tellReferral(session, followed.baby, answer, caller, now);
    }
    case 'reason': {
      const reason = chosen(refusalReasons, digit);
      return reason === undefined ? again() : tellReason(session, followed.baby, reason, caller, now);
    }
    case 'hand-over': {
      const to = chosen(followed.to, digit);
      return (to === undefined ? null : handOverTurn(session, followed.baby, to, caller, now)) ?? again();
    }
    case 'sure': {
      if (digit === '2') return babyMenu(session, followed.baby, [], caller, now);
      if (digit !== '1') return again();
      const part = followed.news === 'died' ? diedTurn : movedTurn;
      return part(session, followed.baby, caller, now);
    }
  }
}

function answerShown(text: string, baby: NamedBaby): ReferralAnswer | null {
  const answer = referralAnswerIn(tokens(text).join(''));
  return answer !== null && answersReferral(answer, baby) ? answer : null;
}

function openListed(session: Session, id: string, asking: Asking): Turn {
  const gone: Turn = { session, reply: { told: [say('followed.gone')], page: 0, ends: false }, facts: [] };
  const open = (babies: readonly FollowedBaby[]): Turn => {
    const baby = babies.find((one) => one.id === id);
    return baby === undefined ? gone : openBaby(session, baby, asking);
  };
  return withFound(session, { kind: 'baby', id }, asking, open) ?? gone;
}

function act(session: Session, baby: NamedBaby, action: Extract<Following, { of: 'baby' }>['actions'][number], asking: Asking): Turn {
  const { caller, book, now } = asking;
  switch (action) {
    case 'referral':
      return askReferral(session, baby, [], caller, now);
    case 'hand-over':
      return askHandOver(session, baby, [], caller, now);
    case 'moved':
    case 'died':
      return askSure(session, baby, action, now);
    case 'recheck':
    case 'contact':
    case 'result': {
      const gone: Turn = { session, reply: { told: [say('followed.gone')], page: 0, ends: false }, facts: [] };
      const see = (babies: readonly FollowedBaby[]): Turn | null => {
        const whole = babies.find((one) => one.id === baby.id);
        return whole === undefined ? null : seeBaby(session, whole, action, caller, book, now);
      };
      return withFound(session, { kind: 'baby', id: baby.id }, asking, see) ?? gone;
    }
  }
}

/** The question that stands, with something said before it. */
export function askAgain(session: Standing, told: readonly Say[], asking: Asking, page = 0): Turn {
  const { caller, now } = asking;
  const { followed } = session;
  switch (followed.of) {
    case 'list':
      return showPage({ ...session, told }, followed, asking, page);
    case 'baby':
      return babyMenu(session, followed.baby, told, caller, now, page);
    case 'referral':
      return askReferral(session, followed.baby, told, caller, now, page);
    case 'reason':
      return askReason(session, followed.baby, told, now, page);
    case 'hand-over':
      return askHandOver(session, followed.baby, told, caller, now, page);
    case 'sure':
      return askSure(session, followed.baby, followed.news, now, told, page);
  }
}

/** The list again, with every digit where it was. */
function showPage(session: Session, { code }: Extract<Following, { of: 'list' }>, asking: Asking, page: number): Turn {
  const lookUp: LookUp = code === undefined ? { kind: 'list' } : { kind: 'code', code, rest: '' };
  const turn = withFound(session, lookUp, asking, (babies) => listPage(session, babies, asking.caller, asking.now, page));
  return turn ?? { session, reply: { told: [], page: 0, ends: false }, facts: [] };
}

/** One step back: to what may be done with the baby; from there, to the examination that stands or to the list. */
export function backFromFollowed(session: Standing, asking: Asking): Turn | null {
  const { followed } = session;
  const { caller, book, now } = asking;
  if (followed.of === 'reason' || followed.of === 'hand-over' || followed.of === 'sure')
    return babyMenu(session, followed.baby, [], caller, now);
  if (session.open !== null && session.open.finishedAt === undefined) return proceed(settled(session), session.open, [], caller, book, now);
  return followed.of === 'list' ? null : showList(session, [], asking);
}
