// One message from end to end: open the phone's session, take the turn, record its facts, close the session, answer.
// Advice never waits for the register: when it is down the answer goes out, the facts are kept beside the sessions, and the
// worker is told to ring. The same message twice gives the same answer and nothing else.

import type { Caller } from '../dialog/book.ts';
import type { Reply } from '../dialog/reply.ts';
import type { Session } from '../dialog/session.ts';
import { shortHash } from '../dialog/short-hash.ts';
import type { IncomingText } from '../dialog/turn.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import { chainOf } from './alerts/alert-chain.ts';
import { answerNurse } from './alerts/nurse.ts';
import type { InForce } from './book.ts';
import { afterShown, compose, type Voice } from './compose.ts';
import { entriesOf } from './entries.ts';
import type { FollowUpParts } from './follow-up-parts.ts';
import { replyAfter } from './not-recorded.ts';
import { type PinParts, passPin } from './pin/pass-pin.ts';
import type { PinState } from './pin/pin-state.ts';
import type { Facility, Held, Incoming, Like, Outgoing, Person, Receive, Register, Roster, SendText, Sessions } from './ports.ts';
import { keepCounted, record } from './record.ts';
import type { Entry } from './records.ts';
import { speaker } from './speak.ts';
import { readSession, type StoredSession, writeSession } from './stored-session.ts';
import { type Keyed, keyedAlone, keyedLast, veiled } from './ussd-input.ts';
import { openAlertFor, takeWorkerTurn } from './worker-turn.ts';

export interface ReceiveParts extends PinParts {
  readonly sessions: Sessions;
  readonly register: Register;
  readonly roster: Roster;
  /** What is published now; asked anew for every message. */
  readonly published: () => InForce;
  readonly screen: ScreenLimit;
  /** So long after its answer the same text of the same phone is the same message, whatever its id: nobody reads and answers as fast. */
  readonly sameTextMilliseconds: number;
  readonly send: SendText;
  /** Called when there may be something to do at once, such as a text to send. */
  readonly wakeSender: () => void;
  readonly now: () => number;
  readonly pause: (milliseconds: number) => Promise<void>;
  readonly log: { readonly error: (about: object, what: string) => void; readonly warn: (about: object, what: string) => void };
}

/** Waits for another message of the same phone to be answered, shorter first. */
const busyPauses = [20, 40, 80, 160, 320, 640, 1000] as const;
/** How often a turn is taken anew when its lock ran out under it. */
const attempts = 3;

export function receiver(parts: ReceiveParts): Receive {
  return async (incoming) => {
    const person = parts.roster.find(incoming.from);
    const facility = person === undefined ? undefined : parts.roster.facility(person.facility);
    if (person === undefined || facility === undefined)
      return { text: speaker(parts.published().catalogues)('', 'system.unknown-number', {}), ends: true };
    for (let attempt = 0; attempt < attempts; attempt += 1) {
      const opened = await openPatiently(incoming, person, parts);
      if (opened.kind === 'repeated') return JSON.parse(opened.reply) as Outgoing;
      if (opened.kind === 'busy') return { text: speaker(parts.published().catalogues)(person.language, 'system.busy', {}), ends: false };
      const outgoing = await answerHeld(opened.held, incoming, person, facility, parts);
      if (outgoing !== null) return outgoing;
    }
    throw new Error('A session could not be closed under its lock in several tries. The session store is too slow; look at its load.');
  };
}

async function openPatiently(incoming: Incoming, person: Person, parts: ReceiveParts) {
  const like = likeOf(incoming, person, parts)?.by;
  let opened = await parts.sessions.open(incoming.from, incoming.id, parts.now(), like);
  for (const pause of busyPauses) {
    if (opened.kind !== 'busy') break;
    await parts.pause(pause);
    opened = await parts.sessions.open(incoming.from, incoming.id, parts.now(), like);
  }
  return opened;
}

/**
 * Of a call nothing: what was keyed in it says by itself what is new. A text may be her PIN: what it is alike by cannot be made again
 * without the hash in the register.
 */
function likeOf({ channel, text }: Incoming, { pin = '' }: Person, { sameTextMilliseconds: milliseconds }: ReceiveParts): Like | undefined {
  return channel === 'sms' && milliseconds > 0 ? { by: shortHash(`${pin}${text}`), milliseconds } : undefined;
}

/** Null: the lock ran out before the session could be closed, and nothing was written. */
async function answerHeld(
  held: Held,
  incoming: Incoming,
  person: Person,
  facility: Facility,
  parts: ReceiveParts,
): Promise<Outgoing | null> {
  try {
    const now = parts.now();
    const stored = readSession(held.session);
    if (stored.damaged) parts.log.error({ code: 'session/damaged' }, 'a stored session could not be read and was begun anew');
    const leftOver = await record(stored.unsaved, parts);
    const answered =
      (await answerAsNurse(incoming, person, now, parts)) ?? (await answerWithPin(stored, incoming, person, facility, now, parts));
    if (answered.isLost || leftOver.where === 'nowhere') {
      // Neither store has what she sent. The advice goes out all the same, since a baby cannot wait; but the session stays as it
      // was and the reply is not remembered, so that the same message again, hers or the gateway's, takes the turn anew.
      await parts.sessions.release(held).catch(() => {});
      return answered.outgoing;
    }
    const session = writeSession(answered.session ?? stored.session, answered.pin ?? stored.pin);
    const like = likeOf(incoming, person, parts);
    const closed = await parts.sessions.close(held, incoming.id, session, JSON.stringify(answered.outgoing), now, like);
    if (!closed) return null;
    if (answered.leavesWork) parts.wakeSender();
    return answered.outgoing;
  } catch (error) {
    await parts.sessions.release(held).catch(() => {});
    throw error;
  }
}

interface Answered {
  readonly outgoing: Outgoing;
  /** It may have left something to do at once. */
  readonly leavesWork: boolean;
  /** Left out: as it was. */
  readonly session?: Session;
  readonly pin?: PinState;
  /** True: what was found is nowhere, and the turn must not be closed. */
  readonly isLost?: boolean;
}

async function answerAsNurse(incoming: Incoming, person: Person, now: number, parts: ReceiveParts): Promise<Answered | null> {
  const mayTake = person.roles.includes('nurse') || person.roles.includes('coordinator');
  if (!mayTake || incoming.channel !== 'sms') return null;
  const text = await answerNurse(person, incoming.text, incoming.id, now, {
    ...followUpParts(parts),
    register: parts.register,
    says: (language, what, said) => saysWord(parts, language, what, said),
    pause: parts.pause,
    log: parts.log,
  });
  if (text !== null) return { outgoing: { text, ends: true }, leavesWork: true };
  if (person.roles.includes('worker')) return null;
  return {
    outgoing: { text: speaker(parts.published().catalogues)(person.language, 'alert.nurse-menu', {}), ends: true },
    leavesWork: false,
  };
}

/** The worker's answer, or the question for her PIN in its place. */
async function answerWithPin(
  stored: StoredSession,
  incoming: Incoming,
  person: Person,
  facility: Facility,
  now: number,
  parts: ReceiveParts,
): Promise<Answered> {
  const before = stored.session;
  const keyed = keyedIn(before, incoming);
  const dialled = keyed?.kind === 'dialled';
  const text = keyed === null ? incoming.text : keyed.kind === 'answer' ? keyed.text : '';
  const said = { text, caller: callerOf(person, facility, incoming.id, parts.roster, now), dialled };
  const { book } = parts.published();
  const passed = await passPin(stored, said, person, book, now, parts);
  if (passed.kind === 'passed') return { ...(await answerAsWorker(before, incoming, passed.said, person, now, parts)), pin: passed.state };
  const reply: Reply = { told: [passed.told], page: 0, ends: false };
  const { shown: _shown, ...outgoing } = compose(reply, incoming.channel, voiceOf(before, person, parts));
  return { outgoing, session: inCall(before, incoming, person), pin: passed.state, leavesWork: false };
}

async function answerAsWorker(
  before: Session,
  incoming: Incoming,
  said: IncomingText,
  person: Person,
  now: number,
  parts: ReceiveParts,
): Promise<Answered> {
  const turnParts = { ...followUpParts(parts), register: parts.register, pause: parts.pause, log: parts.log };
  const { turn, hasRelayed } = await takeWorkerTurn(before, said, person, now, turnParts);
  const entries = entriesOf(turn.facts, { ...turnParts, openAlert: await openAlertFor(turn.facts, turnParts) });
  const counted = entries.filter(({ kind }) => kind === 'begun');
  await keepCounted(counted, parts);
  const owed = entries.filter(({ kind }) => kind !== 'begun');
  const recorded = await record(owed, parts);
  const reply = replyAfter(turn.reply, recorded, said.caller);
  const { shown, ...outgoing } = compose(reply, incoming.channel, voiceOf(turn.session, person, parts));
  const session = inCall(afterShown(turn.session, shown), incoming, person);
  const leavesWork = hasRelayed || (recorded.where === 'register' && owed.some((entry) => isDoneAtOnce(entry, now)));
  return { outgoing, session, leavesWork, isLost: recorded.where === 'nowhere' };
}

/** An examination that ended and what falls due in days are most of what is written, and can wait for the next look at what is due. */
function isDoneAtOnce(entry: Entry, now: number): boolean {
  return entry.kind === 'due' ? entry.dueAt <= now : entry.kind !== 'examination';
}

function voiceOf({ language }: Session, person: Person, { published, screen }: ReceiveParts): Voice {
  return { catalogues: published().catalogues, language: language ?? person.language, screen };
}

/** The session with what was keyed so far in the call that is going on; without one, after a text. */
function inCall(session: Session, { dial: id, text }: Incoming, { pin }: Person): Session {
  const { dial: _dial, ...rest } = session;
  return id === undefined ? rest : { ...rest, dial: { id, keyed: pin === undefined ? text : veiled(text) } };
}

/** Null: it is no call. */
function keyedIn(before: Session, { dial, keyed, text }: Incoming): Keyed | null {
  if (dial === undefined) return null;
  return keyed === undefined ? keyedLast(before.dial, dial, text) : keyedAlone(before.dial, dial, keyed === 'dialled', text);
}

function callerOf(person: Person, facility: Facility, message: string, roster: Roster, now: number): Caller {
  return {
    phone: person.phone,
    message,
    facility: facility.id,
    facilityName: facility.name,
    zone: facility.zone,
    // Whom an alert of hers would ask first; looked up by the few turns that speak of a nurse.
    get nurse() {
      return chainOf({ facility: facility.id, worker: person.phone }, now, roster)[0] ?? facility.nurse;
    },
    language: person.language,
    mayInject: person.mayInject,
    // Asked for where a baby is handed over.
    get colleagues() {
      return roster.workers(facility.id).filter(({ phone }) => phone !== person.phone);
    },
  };
}

/** What the entries and answers of this turn are made from. */
function followUpParts(parts: ReceiveParts): FollowUpParts {
  const published = parts.published();
  return { roster: parts.roster, published, speak: speaker(published.catalogues) };
}

function saysWord(parts: ReceiveParts, language: string, what: string, said: string): boolean {
  const { catalogues } = parts.published();
  const words = [language, catalogues.base].flatMap((tag) => catalogues.byTag.get(tag)?.keywords.get(what) ?? []);
  return words.some((word) => word.toLowerCase() === said);
}
