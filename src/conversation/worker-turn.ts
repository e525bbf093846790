// A worker's turn with what it needs from the register: babies are looked up when the dialog asks for them, words after the code
// of a baby go to the nurse who has its alert. Nobody waits for a register that is away. Next: followed.ts, relay.ts, receive.ts.

import { isForNurse } from '../dialog/code-in.ts';
import type { Fact } from '../dialog/facts.ts';
import type { Found, LookUp } from '../dialog/followed.ts';
import type { Turn } from '../dialog/proceed.ts';
import { digitOf, reasonDigitOf } from '../dialog/referral-question.ts';
import { say } from '../dialog/reply.ts';
import type { Session } from '../dialog/session.ts';
import { type IncomingText, takeTurn } from '../dialog/turn.ts';
import { relayToNurse } from './alerts/relay.ts';
import { mayJoinAlert } from './entries.ts';
import type { FollowUpParts } from './follow-up-parts.ts';
import { lookUpBabies } from './followed.ts';
import { within } from './patience.ts';
import type { Person, Register } from './ports.ts';
import type { AlertRecord } from './records.ts';
import { readReferralAnswer } from './referrals/referral-words.ts';

export interface WorkerTurnParts extends FollowUpParts {
  readonly register: Register;
  readonly pause: (milliseconds: number) => Promise<void>;
  readonly log: { readonly error: (about: object, what: string) => void };
}

/** Together with the writing of facts well within the phone's lock and a gateway's patience. */
const patienceMilliseconds = 2_000;
/** Look-ups that one turn may need. */
const mostLookUps = 2;

export interface WorkerTurn {
  readonly turn: Turn;
  /** A nurse is to be sent something that is in the register already. */
  readonly hasRelayed: boolean;
}

export async function takeWorkerTurn(
  session: Session,
  incoming: IncomingText,
  person: Person,
  now: number,
  parts: WorkerTurnParts,
): Promise<WorkerTurn> {
  const { book, followUp } = parts.published;
  const first = takeTurn(session, incoming, book, now);
  if (first.lookUp === undefined) return { turn: first, hasRelayed: false };
  const said = inDigits(first.lookUp, incoming, person, parts);
  const { lookUp = first.lookUp } = said === incoming ? first : takeTurn(session, said, book, now);
  const relayed = await relay(lookUp, said, person, now, parts);
  if (relayed?.kind === 'had' && relayed.value !== null) {
    const reply = { told: [say('verbatim', { text: relayed.value })], page: 0, ends: true };
    return { turn: { session: { ...session, lastMessageAt: now }, reply, facts: [] }, hasRelayed: true };
  }
  const look = (next: LookUp): Promise<Found> => lookUpBabies(next, person, now, { ...parts, followUp });
  const answers = [{ lookUp, found: relayed?.kind === 'away' ? ({ kind: 'away' } as const) : await look(lookUp) }];
  const take = (): Turn => takeTurn(session, { ...said, answers }, book, now);
  let turn = take();
  // A code that nobody has, sent at the list: the list stands, and is looked up too.
  for (let more = turn.lookUp; more !== undefined && answers.length < mostLookUps; more = turn.lookUp) {
    answers.push({ lookUp: more, found: await look(more) });
    turn = take();
  }
  return { turn, hasRelayed: false };
}

/** An answer about a referral in the words of her language, as its digits, which the dialog reads. */
function inDigits(lookUp: LookUp, incoming: IncomingText, { language }: Person, parts: WorkerTurnParts): IncomingText {
  const answer = lookUp.kind === 'code' && isForNurse(lookUp) ? readReferralAnswer(lookUp.rest, language, parts) : null;
  if (answer === null || lookUp.kind !== 'code') return incoming;
  const reason = answer.reason === null ? '' : reasonDigitOf(answer.reason);
  return { ...incoming, text: `${lookUp.code} ${digitOf(answer.news)}${reason}` };
}

/** Undefined: there are no words for a nurse. */
async function relay(lookUp: LookUp, { text, caller }: IncomingText, person: Person, now: number, parts: WorkerTurnParts) {
  if (lookUp.kind !== 'code' || !isForNurse(lookUp)) return undefined;
  const asked = await within(patienceMilliseconds, relayToNurse(person, text, caller.message ?? String(now), now, parts), parts.pause);
  if (asked.kind === 'away') parts.log.error({ fault: asked.fault }, 'the register is away; words of a worker could not be passed on');
  return asked;
}

/** The alert that news of these facts goes to; null: there is none, or the register could not be asked. */
export async function openAlertFor(facts: readonly Fact[], parts: WorkerTurnParts): Promise<AlertRecord | null> {
  const fact = facts.find((one) => mayJoinAlert(one) || one.kind === 'baby-news');
  if (fact === undefined) return null;
  const asked = await within(patienceMilliseconds, parts.register.alertOf(fact.baby), parts.pause);
  if (asked.kind === 'had') return asked.value;
  parts.log.error({ fault: asked.fault }, 'the register is away; an alert that may be open could not be asked for');
  return null;
}
