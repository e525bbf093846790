// What the register keeps: entries as they are written, records as they are read back. Every entry has a natural key and is
// written once, however often it arrives and in whatever order. Only types. Next: ports.ts, which carries them.

import type { ReferralNews, ReferralState } from '../on-call/referral.ts';

export type Role = 'worker' | 'nurse' | 'coordinator';

/** What is known of a baby besides findings. Not known: null. */
export interface BabyFacts {
  readonly sex: 'girl' | 'boy' | 'not-clear' | null;
  /** Epoch milliseconds. */
  readonly bornAt: number | null;
  readonly gestationDays: number | null;
  readonly birthWeightGrams: number | null;
  /** Number of the mother's card. */
  readonly card: string | null;
}

/** What falls due, each with its own file under src/conversation. */
export type Work =
  | 'alert-not-taken'
  | 'recheck'
  | 'contact'
  | 'referral-left'
  | 'referral-arrived'
  | 'referral-outcome'
  /** A family that refused is seen daily. */
  | 'refusal-visit';

/** What was heard of a baby that changes who follows it, or whether anyone does. */
export type BabyNews = 'died' | 'moved' | 'handed-over';
export type BabyStatus = 'followed' | 'died' | 'moved' | 'erased';

interface Keyed {
  readonly key: string;
  /** Epoch milliseconds. */
  readonly at: number;
}

interface OfBaby extends Keyed {
  /** Id of the baby: that of the examination in which it was first seen. */
  readonly baby: string;
  readonly worker: string;
  readonly facility: string;
  readonly code: string;
}

export interface ExaminationEntry extends OfBaby {
  readonly kind: 'examination';
  readonly flow: string;
  readonly urgency: string;
  /** Hash of the flows, protocol and wording in force. */
  readonly version: string;
  readonly facts: BabyFacts;
  /** `{ examination, case, interpretation }`: all that was answered, the case it makes, and what it means. */
  readonly body: unknown;
}

/** An examination was begun; looked at once it has had the time to end. Counted only: nobody waits for it. */
export interface BegunEntry extends Keyed {
  readonly kind: 'begun';
  /** Key of the examination's own entry. */
  readonly examination: string;
  readonly flow: string;
  readonly worker: string;
  readonly facility: string;
  readonly lookAt: number;
}

export type BegunRecord = Omit<BegunEntry, 'kind' | 'lookAt'>;

/** `step`: where it was given up; null: not known. */
export type BegunLook = { readonly kind: 'again'; readonly at: number } | { readonly kind: 'given-up'; readonly step: string | null };

/** Joins the alert of the same baby that is not closed, if there is one; else raises one, which asks `nurse`. */
export interface AlertEntry extends OfBaby {
  readonly kind: 'alert';
  readonly nurse: string;
  /** `{ case, interpretation, version }` */
  readonly body: unknown;
}

/** An alert goes to the next person; step 0 is the nurse of the alert's own entry. `beside`: asked at the same time as the one before. */
export interface AskedEntry extends Keyed {
  readonly kind: 'asked';
  readonly alert: string;
  readonly step: number;
  readonly nurse: string;
  readonly why: 'not-taken' | 'passed' | 'beside';
}

export interface TextEntry extends Keyed {
  readonly kind: 'text';
  readonly to: string;
  readonly text: string;
  /** The baby that it speaks of: with it the text is erased. */
  readonly baby?: string;
  /** Overtakes the others, is sent again when nobody knows what became of it, and is never held by quiet hours. */
  readonly urgent: boolean;
}

export interface DueEntry extends Keyed {
  readonly kind: 'due';
  readonly work: Work;
  readonly dueAt: number;
  readonly baby: string;
  /** Key of the examination that it follows from: void once a later one of the baby is in the register. */
  readonly examination?: string;
  readonly alert?: string;
  readonly referral?: string;
  /** What the work needs to know beside its subject. */
  readonly body: unknown;
}

/** Left out when the baby has a referral that is not closed. */
export interface ReferralEntry extends OfBaby {
  readonly kind: 'referral';
  readonly urgency: 'urgent' | 'refer';
  /** Facility that the baby is sent to; null: not on the roster. */
  readonly receiving: string | null;
  /** `{ case, interpretation }` */
  readonly body: unknown;
}

export interface ReferralNewsEntry extends Keyed {
  readonly kind: 'referral-news';
  readonly referral: string;
  readonly news: ReferralNews;
  /** Why a family refused; else null. */
  readonly reason: string | null;
  readonly by: string;
}

export interface BabyNewsEntry extends Keyed {
  readonly kind: 'baby-news';
  readonly baby: string;
  readonly news: BabyNews;
  /** Phone of the worker who follows the baby from now on; null unless handed over. */
  readonly to: string | null;
  readonly by: string;
}

/** A line of the audit trail. */
export interface AuditEntry extends Keyed {
  readonly kind: 'audit';
  /** Phone, or the name of a command. */
  readonly by: string;
  readonly what: string;
  readonly about: string;
  readonly body: unknown;
}

/** What must last. */
export type Entry =
  | ExaminationEntry
  | AlertEntry
  | AskedEntry
  | TextEntry
  | DueEntry
  | ReferralEntry
  | ReferralNewsEntry
  | BabyNewsEntry
  | BegunEntry
  | AuditEntry;

export type AlertState = 'open' | 'taken' | 'closed';

export interface AlertRecord {
  readonly key: string;
  readonly baby: string;
  readonly code: string;
  readonly worker: string;
  readonly facility: string;
  /** Whom the worker was told to ring: who was asked last, the first of those who were asked at once. */
  readonly nurse: string;
  /** `nurse`, and who was asked at the same time. */
  readonly askedNow: readonly string[];
  /** All who were asked, in order; step is the index of the last. */
  readonly asked: readonly string[];
  readonly at: number;
  readonly state: AlertState;
  /** Who has it; null while nobody has. */
  readonly takenBy: string | null;
  /** Of the entry that raised it, or of the last that joined it. */
  readonly body: unknown;
}

export interface ReferralRecord {
  readonly key: string;
  readonly baby: string;
  readonly code: string;
  readonly worker: string;
  readonly facility: string;
  readonly receiving: string | null;
  readonly urgency: 'urgent' | 'refer';
  readonly at: number;
  readonly state: ReferralState;
  /** Null until it is known. */
  readonly leftAt: number | null;
  readonly arrivedAt: number | null;
  /** The news that closed it; null while it is not closed. */
  readonly outcome: ReferralNews | null;
  /** Why the family refused; null when it did not. */
  readonly reason: string | null;
  readonly body: unknown;
}

/** Work that is not finished: `missed` was asked for twice, and stays on the worker's list. */
export interface DueRecord {
  readonly key: string;
  readonly work: Work;
  readonly dueAt: number;
  readonly state: 'pending' | 'missed';
  readonly body: unknown;
}

export interface BabyRecord extends BabyFacts {
  readonly id: string;
  readonly code: string;
  readonly facility: string;
  /** Who follows it. */
  readonly worker: string;
  readonly status: BabyStatus;
  /** The examination that was begun last; null when only an alert has reached the register yet. */
  readonly last: { readonly key: string; readonly at: number; readonly urgency: string; readonly body: unknown } | null;
  /** Soonest first; only what follows from the last examination. */
  readonly due: readonly DueRecord[];
  /** The one that is not closed. */
  readonly referral: ReferralRecord | null;
}

/** Work that is due, with what it is about as it stands now, locked until it is answered. */
export interface DueWork {
  readonly key: string;
  readonly work: Work;
  readonly dueAt: number;
  /** How often it was due before. */
  readonly times: number;
  readonly body: unknown;
  readonly baby: BabyRecord | null;
  readonly alert: AlertRecord | null;
  readonly referral: ReferralRecord | null;
}

export interface WorkAnswer {
  readonly entries: readonly Entry[];
  /** Due again then, or held until then without counting as asked; else it is over, as done or as missed. */
  readonly next:
    | { readonly kind: 'again'; readonly at: number }
    | { readonly kind: 'held'; readonly at: number }
    | { readonly kind: 'done' }
    | { readonly kind: 'missed' };
}

export interface TextOut {
  readonly key: string;
  readonly to: string;
  readonly text: string;
  readonly urgent: boolean;
  readonly attempts: number;
}

/** An urgent text that nobody could deliver: given up, or reported as not delivered after its last attempt. */
export interface LostText {
  readonly key: string;
  readonly to: string;
  readonly text: string;
  /** As in TextEntry. */
  readonly baby: string | null;
}

/** `unknown`: the gateway's answer was lost; the text may have gone out. */
export type Sent =
  | { readonly kind: 'sent'; readonly gatewayId: string }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'failed'; readonly reason: string };

/** What a gateway reports later of a text. `failed`: it will not arrive by this sending. */
export type DeliveryReport = (
  | { readonly kind: 'sent' }
  | { readonly kind: 'delivered' }
  | { readonly kind: 'failed'; readonly reason: string }
) & {
  /** The gateway's id of the sending that it speaks of: tells late news of an earlier one from news of the last. */
  readonly gatewayId?: string;
};
