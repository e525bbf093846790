// What a phone's session holds between two messages. The next question is not stored: it follows from the answers.
// Only types and the text form kept in the store. Next: turn.ts.

import type { FindingValue, Sex } from '../clinical/protocol.ts';
import type { ReferralState } from './referral-question.ts';
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

/** What an earlier look gave, and when it was given first without a look since that did not. */
export interface GivenBefore {
  /** Epoch milliseconds. */
  readonly at: number;
  /** Findings that it rested on. */
  readonly restedOn: readonly string[];
}

/** What the looks before this one leave to it (looks-before.ts). */
export interface LooksBefore {
  /** By classification: those that some rule asks for again. */
  readonly given?: Readonly<Record<string, GivenBefore>>;
  /** `at`: epoch milliseconds. */
  readonly weighed?: { readonly grams: number; readonly at: number };
}

export interface Examination {
  readonly id: string;
  /** Id of the baby when it is not this examination's own: the baby was first seen in another one. */
  readonly baby?: string;
  readonly flow: string;
  /** Flows of the looks before this one: the examination, then each recheck. */
  readonly earlier: readonly string[];
  readonly before?: LooksBefore;
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
  /** The question that stood when it was read. */
  readonly step: string;
  readonly values: Readonly<Record<string, AnswerValue>>;
}

/** Where the worker is when no examination is being asked. */
export type View = 'menu' | 'languages' | 'explain' | 'explain-menu' | 'why' | 'followed' | 'explain-followed';

/** A baby of the register that is being spoken of, as far as questions about it need it. */
export interface NamedBaby {
  readonly id: string;
  readonly code: string;
  /** Phone of who follows it. */
  readonly worker: string;
  readonly sex: Sex | null;
  /** Epoch milliseconds. */
  readonly bornAt: number | null;
  readonly referral: { readonly key: string; readonly state: ReferralState; readonly place: string | null } | null;
  /** Its last examination can be read and gone on from. */
  readonly hasResult: boolean;
}

export type BabyAction = 'recheck' | 'contact' | 'result' | 'referral' | 'hand-over' | 'moved' | 'died';

/** What stands about babies that are followed. Each digit means what was shown, whatever the register says since. */
export type Following =
  /** Ids of the babies shown, in the order of their digits; `code`: those with this code, of which one is asked for. */
  | { readonly of: 'list'; readonly babies: readonly string[]; readonly code?: string }
  | { readonly of: 'baby'; readonly baby: NamedBaby; readonly actions: readonly BabyAction[] }
  | { readonly of: 'referral'; readonly baby: NamedBaby }
  /** Why the family refused. */
  | { readonly of: 'reason'; readonly baby: NamedBaby }
  /** Phones of the workers shown. */
  | { readonly of: 'hand-over'; readonly baby: NamedBaby; readonly to: readonly string[] }
  | { readonly of: 'sure'; readonly baby: NamedBaby; readonly news: 'died' | 'moved' };

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
  /** Stands with the views `followed` and `explain-followed`. */
  readonly followed?: Following;
  readonly doubt?: Doubt;
  /** Hash of the question or result that was shown last (asked.ts). */
  readonly asked?: string;
  /** Answers in a row that could not be read. */
  readonly misses: number;
  readonly page: number;
  /** What was said before the question that stands, so that a further page goes on exactly where the last one ended. */
  readonly told: readonly Say[];
  /** True: the page that was shown last was not the last one, so that 99 turns it whatever is asked. */
  readonly hasMore?: boolean;
  /** True: nothing of the question that stands was on a page yet, so that no digit can be meant for it. */
  readonly isQuestionAhead?: boolean;
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
