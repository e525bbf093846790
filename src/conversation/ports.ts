// What the conversation needs from the world. Each port has one conformance suite in tests/conformance that every
// implementation passes. Nothing here knows Redis, Postgres, HTTP or a gateway. Next: receive.ts.

export type Channel = 'sms' | 'ussd';

/** One message from a phone, as a channel hands it over: verified, normalised, not yet understood. */
export interface Incoming {
  readonly channel: Channel;
  /** E.164, with the plus. */
  readonly from: string;
  /** The same id is the same message, however often it is delivered. */
  readonly id: string;
  /** SMS: the body. USSD: all that was keyed since the dial, joined by `*`, as the gateway sent it. */
  readonly text: string;
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

/**
 * Sessions by phone, with the memory of answered messages. `open` and `close` are one round trip each.
 * Times come from the caller in epoch milliseconds, so that a test can move them.
 */
export interface Sessions {
  /** Answers a repeated message from memory, or takes the phone's lock and loads its session. */
  open(phone: string, messageId: string, now: number): Promise<Opened>;
  /**
   * Saves the session and remembers the reply under the message's id, if the lock is still held by this token.
   * False: the lock had run out and nothing was written; the caller opens again.
   */
  close(held: Held, messageId: string, session: string, reply: string, now: number): Promise<boolean>;
  /** Gives the lock back without writing; harmless when it is no longer held. */
  release(held: Held): Promise<void>;
  /** Closes connections. */
  end(): Promise<void>;
}

/** What must last. Each has a natural key and is written once, however often it arrives. */
export type Entry =
  | {
      readonly kind: 'examination';
      readonly key: string;
      readonly worker: string;
      readonly facility: string;
      readonly code: string;
      readonly at: number;
      readonly body: unknown;
    }
  | {
      readonly kind: 'alert';
      readonly key: string;
      readonly worker: string;
      readonly facility: string;
      readonly nurse: string;
      readonly code: string;
      readonly at: number;
      readonly body: unknown;
    }
  | {
      readonly kind: 'text';
      readonly key: string;
      readonly to: string;
      readonly text: string;
      readonly urgent: boolean;
      readonly at: number;
    };

export type AlertState = 'open' | 'taken' | 'closed';

export interface AlertRecord {
  readonly key: string;
  readonly code: string;
  readonly worker: string;
  readonly facility: string;
  readonly nurse: string;
  readonly at: number;
  readonly state: AlertState;
  /** Who has it; null while nobody has. */
  readonly takenBy: string | null;
  readonly body: unknown;
}

export interface TextOut {
  readonly key: string;
  readonly to: string;
  readonly text: string;
  readonly urgent: boolean;
  readonly attempts: number;
}

/** `unknown`: the gateway's answer was lost; the text may have gone out. */
export type Sent =
  | { readonly kind: 'sent'; readonly gatewayId: string }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'failed'; readonly reason: string };

export interface Register {
  /** Writes all entries in one transaction; those whose key is known already are left as they are. */
  record(entries: readonly Entry[]): Promise<void>;
  /** Alerts with this code that are not closed, newest first. */
  findAlerts(code: string): Promise<AlertRecord[]>;
  /**
   * Moves an alert from one state to the next for one person, and writes the entries with it, in one transaction.
   * Null: it was no longer in that state (somebody else was first) and nothing was written.
   */
  moveAlert(key: string, from: AlertState, to: AlertState, by: string, at: number, entries: readonly Entry[]): Promise<AlertRecord | null>;
  /**
   * Texts that are due, urgent ones first; each is claimed until `at + claimMilliseconds`, so that two senders never
   * hold the same one.
   */
  claimTexts(at: number, limit: number, claimMilliseconds: number): Promise<TextOut[]>;
  /** What became of a claimed text. A failed one is due again after a growing pause, until it is given up. */
  settleText(key: string, sent: Sent, at: number): Promise<void>;
  end(): Promise<void>;
}

/** Sends one text through a gateway. Never throws: what went wrong is in the answer. */
export type SendText = (text: { readonly key: string; readonly to: string; readonly text: string }) => Promise<Sent>;

export type Role = 'worker' | 'nurse' | 'coordinator';

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
}

export interface Facility {
  readonly id: string;
  readonly name: string;
  /** IANA zone, such as Africa/Nairobi. */
  readonly zone: string;
  /** The nurse on call, E.164. */
  readonly nurse: string;
}

export interface Roster {
  find(phone: string): Person | undefined;
  facility(id: string): Facility | undefined;
}
