// The dialog core with the real flow, protocol and wording, walked message by message without stores or channels.
// Next: any-message.ts (what is sent), planned-examination.ts (an examination with chosen findings).

import { bindBook } from '../../src/conversation/book.ts';
import type { Book, Caller } from '../../src/dialog/book.ts';
import type { Answered } from '../../src/dialog/followed.ts';
import type { Turn } from '../../src/dialog/proceed.ts';
import { type Examination, newSession, type Session } from '../../src/dialog/session.ts';
import { type Position, standingOf } from '../../src/dialog/standing.ts';
import { type IncomingText, takeTurn } from '../../src/dialog/turn.ts';
import { demoRoster, published } from '../support/desk.ts';
import { type Event, textOf } from './any-message.ts';
import { foundFor, knownCode, wardAt } from './any-ward.ts';

const files = await published();
export const catalogues = files.catalogues;
export const book: Book = bindBook(files);

/** Half past nine in the morning at the demo facility. */
export const morning = Date.parse('2026-11-25T09:30:00+03:00');

const phone = '+254700555101';
const person = demoRoster.find(phone);
const facility = demoRoster.facility(person?.facility ?? '');
if (person === undefined || facility === undefined) throw new Error(`The demo roster has no ${phone}. Put the worker back.`);

export const caller: Caller = {
  phone,
  facility: facility.id,
  facilityName: facility.name,
  zone: facility.zone,
  nurse: facility.nurse,
  language: 'en',
  mayInject: true,
  colleagues: demoRoster.workers(facility.id).filter((one) => one.phone !== phone),
};

/** A whole turn: what it asks of the register is answered from the ward. */
export function take(session: Session, incoming: IncomingText, now: number): Turn {
  const answers: Answered[] = [];
  const taken = (): Turn => takeTurn(session, { ...incoming, answers }, book, now);
  let turn = taken();
  for (let lookUp = turn.lookUp; lookUp !== undefined; lookUp = turn.lookUp) {
    answers.push({ lookUp, found: foundFor(lookUp, wardAt(now, phone, finished), now) });
    turn = taken();
  }
  return turn;
}

export function turnOf(session: Session, text: string, now: number, from: Caller = caller): Turn {
  return take(session, { text, caller: from, dialled: false }, now);
}

export function dialOf(session: Session, now: number): Turn {
  return takeTurn(session, { text: '', caller, dialled: true }, book, now);
}

/** A cold baby, examined the day before. */
export const finished = [
  'BABY GIRL 0430 39 3100 T36.2 R44 P132',
  '0 PREG 0 BIRTH 0',
  '0 COLOUR 0 MOVES 0 SKIN 0 HEAD 0 EYES 0 FEEDING 0 BELLY 0 SPINE 0 GENITALS 0 LIMBS 0 CARE 0',
].reduce(
  (session, text, at) => takeTurn(session, { text, caller, dialled: false }, book, morning - 86_400_000 + at * 1000).session,
  newSession,
).open as Examination;

export interface Walked {
  readonly before: Session;
  readonly text: string;
  readonly dialled: boolean;
  readonly now: number;
  readonly turn: Turn;
}

/** Takes each event as a turn of the core; waiting only moves the clock. */
export function* walk(events: readonly Event[], from: Caller = caller): Generator<Walked> {
  let session: Session = newSession;
  let now = morning;
  let digits: readonly string[] = [];
  for (const event of events) {
    if (event.kind === 'wait') now += event.hours * 3_600_000;
    if (event.kind === 'wait' || event.kind === 'drop' || event.kind === 'switch') continue;
    now += 1000;
    const dialled = event.kind === 'dial';
    const text = textOf(event, digits, knownCode);
    const turn = take(session, { text, caller: from, dialled }, now);
    yield { before: session, text, dialled, now, turn };
    session = turn.session;
    digits = turn.reply.question?.options.map((option) => option.digit) ?? [];
  }
}

export function positionOf(session: Session, now: number): Position {
  if (session.open === null) throw new Error('No examination is open in this session.');
  return standingOf(session.open, caller, book, now);
}
