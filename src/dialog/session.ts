// What a phone's session holds between two messages. The next question is not stored: it follows from the answers.
// Only types and the text form kept in the store. Next: turn.ts.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Say } from './reply.ts';

/** A value of a finding, or of a field of the baby (`born`: epoch minutes; `gestation`: days). */
export type AnswerValue = FindingValue;

/** One answered step. */
export interface Answer {
  readonly step: string;
  /** The step's seal when it was answered. */
  readonly seal: string;
  /** Which look at the baby it belongs to: 0 the examination, then each recheck. */
  readonly look?: number;
  /** Number of the message that gave it, from 1: going back drops all that one message gave. */
  readonly message: number;
  readonly marks?: readonly string[];
  /** The step was left without an answer of its own: not looked at, or gone on from a result. */
  readonly passed?: true;
  readonly values?: Readonly<Record<string, AnswerValue>>;
}

export interface Examination {
  readonly id: string;
  readonly flow: string;
  /** Flows of the looks before this one: the examination, then each recheck. */
  readonly earlier: readonly string[];
  /** Short code by which baby and alert are spoken of. */
  readonly code: string;
  readonly startedAt: number;
  readonly answers: readonly Answer[];
  /** Messages answered so far. */
  readonly messages: number;
  /** Urgent classifications that the nurse has been told of. */
  readonly alerted: readonly string[];
  /** How often a finished examination was reopened and finished again. */
  readonly revision: number;
  readonly finishedAt?: number;
}

/** A value that was read but is not believed yet: "36.9? 1 Yes 2 No". */
export interface Doubt {
  readonly step: string;
  readonly message: string;
  readonly values: Readonly<Record<string, AnswerValue>>;
}

/** Where the worker is when no examination is being asked. */
export type View = 'menu' | 'languages' | 'explain' | 'explain-menu' | 'why';

export interface Session {
  readonly language?: string;
  /** The usual cautions have been shown. */
  readonly cautioned: boolean;
  readonly open: Examination | null;
  /** The baby whose result was given last, once another was begun. */
  readonly last?: Examination;
  /** Examinations set aside, newest first. */
  readonly aside: readonly Examination[];
  readonly view?: View;
  readonly doubt?: Doubt;
  /** Answers in a row that could not be read. */
  readonly misses: number;
  readonly page: number;
  /** What was said before the question that stands, so that a further page goes on exactly where the last one ended. */
  readonly told: readonly Say[];
  /** True: the page that was shown last was not the last one, so that 99 turns it whatever is asked. */
  readonly hasMore?: boolean;
  /** The USSD call that is going on: its id and all that was keyed so far. */
  readonly dial?: { readonly id: string; readonly keyed: string };
  readonly lastMessageAt: number;
}

export const newSession: Session = {
  cautioned: false,
  open: null,
  aside: [],
  misses: 0,
  page: 0,
  told: [],
  lastMessageAt: 0,
};
