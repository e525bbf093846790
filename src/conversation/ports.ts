// What the conversation needs from the world. Each port has one conformance suite in tests/conformance that every
// implementation passes. Nothing here knows Redis, Postgres, HTTP or a gateway. Next: receive.ts.

import type {
  AlertRecord,
  AlertState,
  BabyRecord,
  BegunLook,
  BegunRecord,
  DeliveryReport,
  DueWork,
  Entry,
  LostText,
  ReferralRecord,
  Role,
  Sent,
  TextEntry,
  TextOut,
  WorkAnswer,
} from './records.ts';

export type Channel = 'sms' | 'ussd';

/** One message from a phone, as a channel hands it over: verified, normalised, not yet understood. */
export interface Incoming {
  readonly channel: Channel;
  /** E.164, with the plus. */
  readonly from: string;
  /** The same id is the same message, however often it is delivered. */
  readonly id: string;
  /** SMS: the body. USSD: what was keyed, as the gateway sent it; see {@link Incoming.keyed}. */
  readonly text: string;
  /**
   * USSD: what the text is. Left out: all that was keyed since the dial, joined by `*`. `dialled`: the call begins, and what was
   * dialled is no answer. `answer`: the answer to the last screen alone.
   */
  readonly keyed?: 'dialled' | 'answer';
  /** USSD: the gateway's id of this call. */
  readonly dial?: string;
}

export interface Outgoing {
  /** Empty: nothing is sent back. */
  readonly text: string;
  /** USSD: the call ends with this screen. */
  readonly ends: boolean;
}

export type Receive = (incoming: Incoming) => Promise<Outgoing>;

/** A phone's session, held under a lock that only its token may close. */
export interface Held {
  readonly phone: string;
  readonly token: string;
  /** The stored session as text; null when the phone has none. */
  readonly session: string | null;
}

export type Opened =
  | { readonly kind: 'held'; readonly held: Held }
  /** This message was answered before; the reply is the one given then. */
  | { readonly kind: 'repeated'; readonly reply: string }
  /** Another message of the same phone is being answered now. */
  | { readonly kind: 'busy' };

/** What a message is alike by, whatever its id, and for how long two of them are one. */
export interface Like {
  readonly by: string;
  readonly milliseconds: number;
}

/**
 * Sessions by phone, with the memory of answered messages. `open` and `close` are one round trip each.
 * Times come from the caller in epoch milliseconds, so that a test can move them.
 */
export interface Sessions {
  /**
   * Answers a repeated message from memory, or takes the phone's lock and loads its session.
   *
   * Takes    like: what the same message would be remembered by under another id; see `close`. One that is answered so is from now
   *          on remembered under its own id as well.
   */
  open(phone: string, messageId: string, now: number, like?: string): Promise<Opened>;
  /**
   * Saves the session and remembers the reply under the message's id, if the lock is still held by this token.
   * False: the lock had run out and nothing was written; the caller opens again.
   *
   * Takes    like: remembers it by this as well, for a moment.
   */
  close(held: Held, messageId: string, session: string, reply: string, now: number, like?: Like): Promise<boolean>;
  /** Gives the lock back without writing; harmless when it is no longer held. */
  release(held: Held): Promise<void>;
  /** Keeps what the register cannot take now, by key: the same key again changes nothing. */
  keep(waiting: readonly Waiting[]): Promise<void>;
  /** Some of what is kept, oldest first; it stays kept until it is let go. */
  kept(limit: number): Promise<Waiting[]>;
  letGo(keys: readonly string[]): Promise<void>;
  /** Resolves while it answers: of several nodes while one does, for the phones of that one are served on. */
  answers(): Promise<void>;
  /** Closes connections. */
  end(): Promise<void>;
}

export interface Register {
  /**
   * Writes all entries in one transaction; those whose key is known already are left as they are. A text that went out
   * already is written as sent.
   */
  record(entries: readonly Waiting[]): Promise<void>;
  /** Alerts with this code that are not closed, newest first. */
  findAlerts(code: string): Promise<AlertRecord[]>;
  /** The alert of a baby that is not closed. */
  alertOf(baby: string): Promise<AlertRecord | null>;
  /**
   * Moves an alert from one state to the next for one person, and writes the entries with it, in one transaction.
   * Null: it was no longer in that state (somebody else was first) and nothing was written. An alert that is taken is taken
   * again only by the one who has it.
   */
  moveAlert(key: string, from: AlertState, to: AlertState, by: string, at: number, entries: readonly Entry[]): Promise<AlertRecord | null>;
  /** Babies with this code that are still followed, of a facility or by this worker wherever they were first seen; newest first. */
  findBabies(facility: string, worker: string, code: string): Promise<BabyRecord[]>;
  /** Babies that this worker follows and for whom something is due by then, missed, or a referral is open; soonest first. */
  listBabies(worker: string, dueBy: number, limit: number): Promise<BabyRecord[]>;
  /** Referrals with this code that are not closed, newest first. */
  findReferrals(code: string): Promise<ReferralRecord[]>;
  /**
   * Work that is due, each piece in a transaction of its own: it is locked, answered, its entries are written, and it is over
   * or due again. Any number of processes may do so at once. A piece whose answer throws is due again later, and logged by
   * the caller through `failed`. Work of an examination that is not the baby's last is void and never answered.
   *
   * Returns  how many pieces were answered.
   */
  workDue(
    at: number,
    limit: number,
    answer: (work: DueWork) => WorkAnswer,
    failed: (work: string, error: unknown) => void,
  ): Promise<number>;
  /**
   * Texts that are due, urgent ones first; each is claimed until `at + claimMilliseconds`, so that two senders never
   * hold the same one.
   */
  claimTexts(at: number, limit: number, claimMilliseconds: number): Promise<TextOut[]>;
  /**
   * Writes down that a claimed text goes to the gateway now: one that is not urgent may from here on have been sent, and is not
   * claimed again unless news comes that it failed. False: it is not to be sent any more.
   */
  beginSending(key: string, at: number): Promise<boolean>;
  /** What became of a claimed text. A failed one is due again after a growing pause, until it is given up. */
  settleText(key: string, sent: Sent, at: number): Promise<void>;
  /** What the gateway reports of a text, by its reference (text-reference.ts). Delivered is final; reports may come twice, late, or early. */
  reportText(reference: string, report: DeliveryReport, at: number): Promise<void>;
  /** The reference of the text to this phone that the gateway gave this id; null: of none. */
  textSentAs(gatewayId: string, to: string): Promise<string | null>;
  /**
   * Urgent texts that were lost and of which nobody was told yet; each is told of once, by texts that are written in the same
   * transaction. A text that itself tells of a lost one is not told of.
   *
   * Returns  how many there were.
   */
  tellOfLost(at: number, limit: number, tell: (lost: LostText) => readonly TextEntry[]): Promise<number>;
  /** Examinations that were begun, are to be looked at by then and have not ended; oldest first. */
  begunDue(at: number, limit: number): Promise<BegunRecord[]>;
  settleBegun(key: string, look: BegunLook): Promise<void>;
  end(): Promise<void>;
}

/** An entry that the register could not take yet. */
export type Waiting = Entry & {
  /** The gateway's id of a text that went out without the register. */
  readonly gatewayId?: string;
};

/** Sends one text through a gateway. Never throws: what went wrong is in the answer. */
export type SendText = (text: { readonly key: string; readonly to: string; readonly text: string }) => Promise<Sent>;

export interface Person {
  /** E.164. */
  readonly phone: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly facility: string;
  /** BCP-47. */
  readonly language: string;
  /** Injectable first doses are shown only to those whom the roster marks. */
  readonly mayInject: boolean;
  /** Hash of her PIN (password.ts); digits only in a table that was just read. Left out: she is never asked for one. */
  readonly pin?: string;
}

export interface Facility {
  readonly id: string;
  readonly name: string;
  /** IANA zone, such as Africa/Nairobi. */
  readonly zone: string;
  /** Number to ring when the rota names nobody, E.164. */
  readonly nurse: string;
  /** Takes over when nobody here is on call or answers, such as the district's hospital; null: nobody does. */
  readonly above: string | null;
  /** Where its sick babies are sent; null: not said. */
  readonly refersTo: string | null;
  /** How long the way there takes; null: not said. */
  readonly travelMinutes: number | null;
}

export interface Roster {
  find(phone: string): Person | undefined;
  facility(id: string): Facility | undefined;
  /** Where this number belongs: that of a person, or the one to ring of a facility. */
  facilityOf(phone: string): Facility | undefined;
  /** Whom to ask about a baby of this facility at that instant: its own on call, first one first, then those above; nobody twice. */
  onCall(facility: string, at: number): readonly Person[];
  /** Of the facility and of those above it, nearest first. */
  coordinators(facility: string): readonly Person[];
  /** Workers of the facility. */
  workers(facility: string): readonly Person[];
}
