// What must outlast a session leaves the core as facts with keys of their own; written once however often they arrive.

import type { Case, Interpretation, Sex } from '../clinical/protocol.ts';
import { type BabyFacts, babyFactsOf } from './baby-facts.ts';
import type { Book, Caller } from './book.ts';
import { writtenCase } from './gather.ts';
import type { Standing } from './lookup.ts';
import type { ReferralNews, RefusalReason } from './referral-question.ts';
import type { Examination } from './session.ts';

interface OfBaby {
  /** Id of the baby: that of the examination in which it was first seen. */
  readonly baby: string;
  readonly code: string;
  readonly worker: string;
  /** Of the worker who sends it. */
  readonly facility: string;
  readonly at: number;
}

interface Found {
  readonly case: Case;
  readonly interpretation: Interpretation;
  /** Hash of the flows, protocol and wording in force. */
  readonly version: string;
}

export interface ExaminationFact extends OfBaby, Found {
  readonly kind: 'examination';
  readonly key: string;
  /** Whole, so that a second look can go on from the register. */
  readonly examination: Examination;
  readonly facts: BabyFacts;
}

/** The first alert of a baby, or what was found since; `news`: the urgent classifications that it tells of. */
export interface AlertFact extends OfBaby, Found {
  readonly kind: 'alert';
  readonly key: string;
  readonly isUpdate: boolean;
  readonly news: readonly string[];
}

/** `worker` is who follows the baby until now. */
interface News extends OfBaby {
  /** `<kind>:<message id>` */
  readonly key: string;
  /** Phone of who tells it. */
  readonly by: string;
  readonly sex: Sex | null;
  /** Epoch milliseconds; null: not known. */
  readonly bornAt: number | null;
}

/** What the worker says of a referral. A reason that is told after the refusal is a refusal again, with its reason. */
export interface ReferralNewsFact extends News {
  readonly kind: 'referral-news';
  /** Its key. */
  readonly referral: string;
  readonly news: ReferralNews;
  readonly reason: RefusalReason | null;
}

export interface BabyNewsFact extends News {
  readonly kind: 'baby-news';
  readonly news: 'died' | 'moved' | 'handed-over';
  /** Phone of the worker who follows the baby from now on; null unless handed over. */
  readonly to: string | null;
  /** Key of the referral that is not closed; null: there is none. */
  readonly referral: string | null;
}

/** An examination was begun, and did not end with the same message. */
export interface BegunFact {
  readonly kind: 'begun';
  readonly key: string;
  /** Key of the fact that will tell its end. */
  readonly examination: string;
  readonly flow: string;
  readonly worker: string;
  readonly facility: string;
  readonly at: number;
}

export type Fact = BegunFact | ExaminationFact | AlertFact | ReferralNewsFact | BabyNewsFact;

export function examinationFact(examination: Examination, standing: Standing, caller: Caller, book: Book, now: number): ExaminationFact {
  return {
    kind: 'examination',
    key: `examination:${examination.id}:${examination.revision}`,
    examination,
    facts: babyFactsOf(standing.gathered),
    ...body(examination, standing, caller, book, now),
  };
}

/** Stands in `alerted` where the nurse was told that nothing is urgent any more. */
const eased = 'eased';

/**
 * An alert when there is an urgent classification that the nurse was not told of, or when an answer taken back leaves none;
 * and the examination that remembers it.
 */
export function alertFact(
  examination: Examination,
  standing: Standing,
  caller: Caller,
  book: Book,
  now: number,
): { examination: Examination; facts: AlertFact[] } {
  const urgent = standing.interpretation.classifications.filter((one) => one.urgency === 'urgent').map((one) => one.id);
  const toldSince = examination.alerted.slice(examination.alerted.lastIndexOf(eased) + 1);
  const news = urgent.filter((id) => !toldSince.includes(id));
  const isEased = urgent.length === 0 && toldSince.length > 0;
  if (news.length === 0 && !isEased) return { examination, facts: [] };
  const isUpdate = examination.alerted.length > 0;
  const alerted = [...examination.alerted, ...(isEased ? [eased] : news)];
  const key = isUpdate ? `alert:${examination.id}:${alerted.length}` : `alert:${examination.id}`;
  return {
    examination: { ...examination, alerted },
    facts: [{ kind: 'alert', key, isUpdate, news, ...body(examination, standing, caller, book, now) }],
  };
}

function body(examination: Examination, { gathered, interpretation }: Standing, caller: Caller, book: Book, now: number): OfBaby & Found {
  return {
    baby: examination.baby ?? examination.id,
    code: examination.code,
    worker: caller.phone,
    facility: caller.facility,
    at: now,
    case: writtenCase(gathered.case),
    interpretation,
    version: book.version,
  };
}
