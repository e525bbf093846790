// One turn of the dialog: a session and a message in; the next session, what to say, and facts out. Touches nothing:
// no clock, no store, no network, no chance. Opens with what may be sent at any moment; an answer goes to answer.ts.

import { answer, beforeFirst } from './answer.ts';
import { answeredStep, isAsShown } from './asked.ts';
import { begunFacts } from './begun.ts';
import { type Book, type Caller, languageOf } from './book.ts';
import { type Coded, codeIn, looksLikeAmount } from './code-in.ts';
import { type Commanded, commandOf } from './commands.ts';
import { askBack } from './doubt.ts';
import { beginExamination, takeBack } from './examination.ts';
import type { Step } from './flow.ts';
import type { Answered } from './followed.ts';
import { askAgain, backFromFollowed, chooseFollowed, openCode, showList } from './following.ts';
import { lookAgain } from './known-baby.ts';
import { chosen, finishedLast, isHalfway, languageQuestion, menuItems, understood } from './menu.ts';
import { missed, proceed, settled, showMenu, type Turn, withoutView } from './proceed.ts';
import { tokens } from './readings/tokens.ts';
import type { Words } from './readings/words.ts';
import { type Reply, type Say, say } from './reply.ts';
import type { Examination, Following, Session } from './session.ts';
import { standingOf } from './standing.ts';
import { takeUp } from './take-up.ts';
import { whyLines } from './why.ts';
import { onlyPublished } from './withdrawn.ts';

export interface IncomingText {
  readonly text: string;
  readonly caller: Caller;
  /** A USSD call that has just been dialled and has nothing keyed yet. */
  readonly dialled: boolean;
  /** No menu in between: a dial goes on with the examination in hand, and a new baby is begun at once. */
  readonly withoutMenu?: boolean;
  /** What the register answered, once the turn has asked for it. */
  readonly answers?: readonly Answered[];
}

export function takeTurn(session: Session, incoming: IncomingText, book: Book, now: number): Turn {
  const { session: readable, isInterrupted } = onlyPublished(session, book);
  const routed = route({ ...readable, lastMessageAt: now }, incoming, book, now);
  const begun = begunFacts(readable, routed.session, incoming.caller, now);
  const whole = begun.length === 0 ? routed : { ...routed, facts: [...routed.facts, ...begun] };
  const turn = isInterrupted ? saying(say('withdrawn', { nurse: incoming.caller.nurse }), whole) : whole;
  if (session.cautioned) return turn;
  const cautioned = saying(say('caution'), turn);
  return { ...cautioned, session: { ...cautioned.session, cautioned: true } };
}

/** The turn with something said before all else, also on its further pages. */
function saying(first: Say, turn: Turn): Turn {
  const told = [first, ...turn.reply.told];
  return { ...turn, session: { ...turn.session, told }, reply: { ...turn.reply, told } };
}

function route(session: Session, incoming: IncomingText, book: Book, now: number): Turn {
  const { caller } = incoming;
  if (incoming.dialled) return dial(session, incoming, book, now);
  const commanded = commandOf(incoming.text, understood(book, session, caller), () => asksNumber(session, caller, book, now));
  if (commanded !== null) return command(session, commanded, incoming, book, now);
  if (session.isQuestionAhead === true && isDigits(incoming.text)) return more(session, incoming, book, now);
  const coded = babyNamedIn(session, incoming, book, now);
  if (coded !== null) {
    const opened = openCode(session, coded, null, { ...incoming, book, now });
    if (opened !== null) return opened;
  }
  if (isAtMenu(session)) return choose(session, incoming, book, now);
  if (session.view === 'languages') return chooseLanguage(session, incoming.text, caller, book, now);
  if (isAtFollowed(session)) {
    const asking = { ...incoming, book, now };
    return coded === null ? chooseFollowed(session, incoming.text, asking) : askAgain(session, [unknown(coded)], asking);
  }
  if (session.open === null) return showMenu(session, coded === null ? [] : [unknown(coded)], caller, book, now);
  return answer({ ...withoutView(session), open: session.open }, tokens(incoming.text, wordsOf(session, caller, book)), caller, book, now);
}

/** One number, or digits of a list: they turn the page where what they would answer is not shown yet. "36.8 44 132" is an answer. */
function isDigits(text: string): boolean {
  const pieces = tokens(text);
  return pieces.every((piece) => /^\d+$/.test(piece) && (pieces.length === 1 || piece.length === 1));
}

/** The code of a baby that a message begins with; null: none, or a unit while what is asked is answered with one (5HR). */
function babyNamedIn(session: Session, { text, caller }: IncomingText, book: Book, now: number): Coded | null {
  const coded = codeIn(text);
  if (coded === null || session.open === null || session.view !== undefined) return coded;
  const { kind } = stepInSight(session, session.open, caller, book, now);
  const takesAmount = kind === 'read' || kind === 'again';
  return takesAmount && looksLikeAmount(coded, wordsOf(session, caller, book)) ? null : coded;
}

function unknown({ code }: Coded): Say {
  return say('followed.unknown', { code });
}

function dial(session: Session, { caller, withoutMenu }: IncomingText, book: Book, now: number): Turn {
  if (withoutMenu === true && session.open !== null && isHalfway(session.open))
    return proceed(settled(session), session.open, [], caller, book, now);
  const isWaiting = (session.open !== null && isHalfway(session.open)) || session.aside.length > 0;
  return isWaiting ? showMenu(session, [], caller, book, now) : begin(session, 'new-baby', '', caller, book, now);
}

function command(session: Session, { command: name, rest }: Commanded, incoming: IncomingText, book: Book, now: number): Turn {
  const { open } = session;
  const { caller } = incoming;
  switch (name) {
    case 'new-baby': {
      return open !== null && isHalfway(open) && rest === '' && incoming.withoutMenu !== true
        ? showMenu(session, [], caller, book, now)
        : begin(session, 'new-baby', rest, caller, book, now);
    }
    case 'contact': {
      const coded = codeIn(rest);
      const opened = coded?.rest === '' ? openCode(session, coded, 'contact', { ...incoming, book, now }) : null;
      return opened ?? begin(session, 'contact', rest, caller, book, now);
    }
    case 'recheck': {
      const coded = codeIn(rest);
      if (coded === null) return recheck(session, caller, book, now);
      return openCode(session, coded, 'recheck', { ...incoming, book, now }) ?? showMenu(session, [unknown(coded)], caller, book, now);
    }
    case 'list':
      return showList(session, [], { ...incoming, book, now });
    case 'why':
      return why(session, caller, book, now);
    case 'menu':
      return showMenu(session, [], caller, book, now);
    case 'pause':
      return { session: settled(session), reply: ending([say('paused')]), facts: [] };
    case 'language':
      return showLanguages(session, [], book);
    case 'nurse':
      return { session: withoutView(session), reply: telling([say('nurse', { nurse: caller.nurse })]), facts: [] };
    case 'go-on':
      return open === null ? showMenu(session, [], caller, book, now) : proceed(settled(session), open, [], caller, book, now);
    case 'back':
      return back(session, incoming, book, now);
    case 'more':
      return more(session, incoming, book, now);
    case 'explain':
      return explain(session, caller, book, now);
  }
}

/** True while the question that stands reads a number, so that 99 is an oxygen or a heart rate and no command. */
function asksNumber(session: Session, caller: Caller, book: Book, now: number): boolean {
  if (session.open === null || session.view !== undefined || session.hasMore === true) return false;
  const step = stepInSight(session, session.open, caller, book, now);
  if (step.kind === 'again') return true;
  return step.kind === 'read' && step.fields.some(({ of }) => ['number', 'count'].includes(book.findings.get(of)?.kind ?? ''));
}

/** The step that an answer would be taken for; where she saw another than now stands, that which stands. */
function stepInSight(session: Session, open: Examination, caller: Caller, book: Book, now: number): Step {
  const position = standingOf(open, caller, book, now);
  return answeredStep(session, open, position, book) ?? position.next;
}

/** The words of the language that this session is spoken in. */
function wordsOf(session: Session, caller: Caller, book: Book): Words {
  return languageOf(book, session.language ?? caller.language).words;
}

/** Begins an examination; one that was begun before is set aside, and can be gone on with from the menu. */
function begin(session: Session, what: 'new-baby' | 'contact', rest: string, caller: Caller, book: Book, now: number): Turn {
  const begun = beginExamination(book.flowFor[what], caller.phone, now, caller.message);
  const started = takeUp(session, begun);
  const pieces = tokens(rest, wordsOf(session, caller, book));
  return pieces.length === 0 ? proceed(started, begun, [], caller, book, now) : answer(started, pieces, caller, book, now);
}

/** The result that was given last. A baby begun since is set aside. */
function readAgain(session: Session, caller: Caller, book: Book, now: number): Turn {
  const last = finishedLast(session);
  if (last === undefined) return showMenu(session, [], caller, book, now);
  return proceed(takeUp(session, last), last, [], caller, book, now);
}

/** Looks again at the baby whose result was given last. */
function recheck(session: Session, caller: Caller, book: Book, now: number): Turn {
  const last = finishedLast(session);
  if (last === undefined) return showMenu(session, [], caller, book, now);
  const again = lookAgain(last, caller, book, now);
  return proceed(takeUp(session, again), again, [], caller, book, now);
}

function why(session: Session, caller: Caller, book: Book, now: number, page = 0): Turn {
  if (session.open === null) return showMenu(session, [], caller, book, now);
  const lines = whyLines(standingOf(session.open, caller, book, now).interpretation, book);
  return { session: { ...session, view: 'why', page }, reply: { ...telling(lines), page }, facts: [] };
}

function back(session: Session, incoming: IncomingText, book: Book, now: number): Turn {
  const { caller } = incoming;
  if (isAtFollowed(session)) {
    const asking = { ...incoming, book, now };
    const turn = session.view === 'explain-followed' ? askAgain(session, [], asking) : backFromFollowed(session, asking);
    return turn ?? showMenu(session, [], caller, book, now);
  }
  if (session.doubt !== undefined && session.open !== null) return proceed(settled(session), session.open, [], caller, book, now);
  if (session.view !== undefined && session.open !== null) return proceed(settled(session), session.open, [], caller, book, now);
  // From a further page of a result to the page before it: what was answered stands.
  if (session.page > 0 && session.open !== null && isAtResult(session.open, session, caller, book, now))
    return proceed(session, session.open, session.told, caller, book, now, session.page - 1);
  const earlier = session.open === null ? null : takeBack(session.open);
  if (earlier === null) return showMenu(session, [], caller, book, now);
  const reopened = session.open?.finishedAt === undefined ? earlier : { ...earlier, revision: earlier.revision + 1 };
  return proceed(settled(session), reopened, [], caller, book, now);
}

function isAtResult(open: Examination, session: Session, caller: Caller, book: Book, now: number): boolean {
  const position = standingOf(open, caller, book, now);
  return position.next.kind === 'result' && isAsShown(session, position, book);
}

/** The next page of what was said last, exactly as it would have gone on. */
function more(session: Session, incoming: IncomingText, book: Book, now: number): Turn {
  const { caller } = incoming;
  if (session.view === 'why') return why(session, caller, book, now, session.page + 1);
  if (session.view?.startsWith('explain')) return explain(session, caller, book, now, session.page + 1);
  if (session.view === 'menu') return showMenu(session, session.told, caller, book, now, session.page + 1);
  if (session.view === 'languages') return showLanguages(session, session.told, book, session.page + 1);
  if (isAtFollowed(session)) return askAgain(session, session.told, { ...incoming, book, now }, session.page + 1);
  if (session.open === null) return showMenu(session, session.told, caller, book, now, session.page + 1);
  if (session.doubt !== undefined) return askBack(session, session.doubt, book, now, session.page + 1);
  const page = isAsShown(session, standingOf(session.open, caller, book, now), book) ? session.page : beforeFirst;
  return proceed(session, session.open, session.told, caller, book, now, page + 1);
}

/** The digits of the menu stand, also after what explains it: they never answer a question that is not shown. */
function isAtMenu({ view }: Session): boolean {
  return view === 'menu' || view === 'explain-menu';
}

/** So do the digits of what stands about a followed baby. */
function isAtFollowed(session: Session): session is Session & { readonly followed: Following } {
  return (session.view === 'followed' || session.view === 'explain-followed') && session.followed !== undefined;
}

function explain(session: Session, caller: Caller, book: Book, now: number, page = 0): Turn {
  const stands = isAtMenu(session) || isAtFollowed(session);
  const step = session.open === null || stands ? null : stepInSight(session, session.open, caller, book, now);
  const key = isAtFollowed(session) ? 'explain.followed' : step === null ? 'explain.menu' : `explain.${step.id}`;
  const view = isAtMenu(session) ? 'explain-menu' : isAtFollowed(session) ? 'explain-followed' : 'explain';
  return { session: { ...session, view, page }, reply: { ...telling([say(book.has(key) ? key : 'explain.menu')]), page }, facts: [] };
}

function showLanguages(session: Session, told: readonly Say[], book: Book, page = 0): Turn {
  return {
    session: { ...settled(session), view: 'languages', told, page },
    reply: { told, question: languageQuestion(book), page, ends: false },
    facts: [],
  };
}

function choose(session: Session, incoming: IncomingText, book: Book, now: number): Turn {
  const { text, caller } = incoming;
  const item = chosen(menuItems(session, caller, book, now), tokens(text)[0] ?? '');
  if (item === undefined) return missed(session, (told) => showMenu(session, told, caller, book, now), caller, text);
  switch (item.action.kind) {
    case 'new-baby':
    case 'contact':
      return begin(session, item.action.kind, '', caller, book, now);
    case 'languages':
      return showLanguages(session, [], book);
    case 'list':
      return showList(session, [], { ...incoming, book, now });
    case 'recheck':
      return recheck(session, caller, book, now);
    case 'result':
      return readAgain(session, caller, book, now);
    case 'go-on':
      return goOnWith(session, item.action.id, caller, book, now);
  }
}

function goOnWith(session: Session, id: string, caller: Caller, book: Book, now: number): Turn {
  const all = [session.open, ...session.aside].filter((one): one is Examination => one !== null);
  const wanted = all.find((one) => one.id === id);
  if (wanted === undefined) return showMenu(session, [], caller, book, now);
  return proceed(takeUp(session, wanted), wanted, [], caller, book, now);
}

function chooseLanguage(session: Session, text: string, caller: Caller, book: Book, now: number): Turn {
  const language = chosen(book.languages, tokens(text)[0] ?? '');
  if (language === undefined) return missed(session, (told) => showLanguages(session, told, book), caller, text);
  const spoken = { ...settled(session), language: languageOf(book, language.tag).tag };
  return session.open === null || session.open.finishedAt !== undefined
    ? showMenu(spoken, [], caller, book, now)
    : proceed(spoken, session.open, [], caller, book, now);
}

function telling(told: readonly Say[]): Reply {
  return { told, page: 0, ends: false };
}

function ending(told: readonly Say[]): Reply {
  return { told, page: 0, ends: true };
}
