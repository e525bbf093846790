// Goes to where an examination stands: asks the next question, or gives the result and the facts that go with it.
// Beside it, what every turn may end in: the menu, a new baby, a message that could not be read. Called by turn.ts and answer.ts.

import { questionFor } from './ask.ts';
import { askedOf } from './asked.ts';
import type { Book, Caller } from './book.ts';
import { finish } from './examination.ts';
import { alertFact, examinationFact, type Fact } from './facts.ts';
import type { LookUp } from './followed.ts';
import { menuQuestion } from './menu.ts';
import { guardsHold } from './next-step.ts';
import { type Reply, type Say, say } from './reply.ts';
import { finalResult, urgentResult } from './result.ts';
import type { Examination, Session } from './session.ts';
import { type Position, standingOf } from './standing.ts';

export interface Turn {
  readonly session: Session;
  readonly reply: Reply;
  readonly facts: readonly Fact[];
  /** Asks for what the register holds, and says nothing yet: the same turn is taken again with what was found. */
  readonly lookUp?: LookUp;
}

export const missesBeforeNurse = 3;
/** How much of what cannot be read is quoted back. */
export const echoed = 20;

/** Goes to where the examination now stands: asks the next question, or gives the result and the facts that go with it. */
export function proceed(
  session: Session,
  examination: Examination,
  told: readonly Say[],
  caller: Caller,
  book: Book,
  now: number,
  page = 0,
): Turn {
  const position = standingOf(examination, caller, book, now);
  const alerted = alertFact(examination, position, caller, book, now);
  const { next } = position;
  const asked = askedOf(position, book);
  if (next.kind !== 'result') {
    const isEased = alerted.facts.some((fact) => fact.kind === 'alert' && fact.news.length === 0);
    const all = isEased ? [say('told.eased', { nurse: caller.nurse }), ...told] : told;
    const reply: Reply = { told: all, question: questionFor(next, position.gathered, book), page, ends: false };
    return { session: { ...session, open: alerted.examination, asked, page, told: all }, reply, facts: alerted.facts };
  }
  if (next.of === 'urgent') {
    const reply: Reply = { told, question: optionsOf('urgent', position), result: urgentResult(position, caller, book), page, ends: false };
    return { session: { ...session, open: alerted.examination, asked, page, told }, reply, facts: alerted.facts };
  }
  const isNew = examination.finishedAt === undefined;
  const finished = isNew ? finish(alerted.examination, now) : alerted.examination;
  const facts = isNew ? [...alerted.facts, examinationFact(finished, position, caller, book, now)] : alerted.facts;
  const reply: Reply = {
    told,
    question: optionsOf('final', position),
    result: finalResult(finished, position, caller, book),
    page,
    ends: true,
  };
  return { session: { ...session, open: finished, asked, page, told }, reply, facts };
}

/** What may follow a result besides its next page. */
function optionsOf(of: 'urgent' | 'final', position: Position): NonNullable<Reply['question']> {
  const { gathered, interpretation } = position;
  const options = [{ digit: '1', label: say('result.more') }];
  if (of === 'urgent') options.push({ digit: '2', label: say('result.go-on') });
  if (of === 'urgent' && offeredStep(position) !== undefined) options.push({ digit: '3', label: say('result.first-doses') });
  if (of === 'final' && interpretation.missing.length > 0) options.push({ digit: '2', label: say('result.ask-missing') });
  if (of === 'final' && gathered.known.get('twin-or-triplet') === true) options.push({ digit: '3', label: say('result.next-twin') });
  return { title: say('nothing'), options, tail: [] };
}

export function showMenu(session: Session, told: readonly Say[], caller: Caller, book: Book, now: number, page = 0): Turn {
  const reply: Reply = { told, question: menuQuestion(session, caller, book, now), page, ends: false };
  return { session: { ...settled(session), view: 'menu', page, told }, reply, facts: [] };
}

/** The step that the urgent result offers beside going on, when it is due for this baby and this worker. */
export function offeredStep(position: Position): string | undefined {
  const { next, flow } = position;
  const step = next.kind === 'result' ? flow.steps.find((one) => one.id === next.offers) : undefined;
  return step !== undefined && guardsHold(step, position) ? step.id : undefined;
}

/** A message that could not be read: the same question again, and after three in a row whom to ring. */
export function missed(session: Session, ask: (told: readonly Say[]) => Turn, caller: Caller, text: string): Turn {
  const misses = session.misses + 1;
  const help =
    misses >= missesBeforeNurse
      ? [say('refused.offer-nurse', { nurse: caller.nurse })]
      : [say('refused.not-a-choice', { text: text.slice(0, echoed) })];
  const turn = ask(help);
  return { ...turn, session: { ...turn.session, misses } };
}

/** The session with nothing pending: no doubt, no view, first page. */
export function settled(session: Session): Session {
  const { doubt: _doubt, view: _view, followed: _followed, ...rest } = session;
  return { ...rest, page: 0, told: [], misses: 0 };
}

/** The session back from an explanation, whose pages are not those of what it explained. */
export function withoutView(session: Session): Session {
  const { view, followed: _followed, ...rest } = session;
  return view === undefined ? session : { ...rest, page: 0 };
}
