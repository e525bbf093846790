// What nurses and coordinators look at on a screen: open alerts and referrals, one baby's course, texts that failed, the audit
// trail, figures by week. Only types. The register answers (src/register/watch/watch.ts), the console shows.

import type { Classification, Gestation } from '../clinical/protocol.ts';
import type { ReferralNews, ReferralState } from '../on-call/referral.ts';
import type { AlertState, BabyFacts, BabyNews, BabyStatus, Work } from './records.ts';

/** Ids of the facilities that somebody may see; null: all of them. */
export type Scope = readonly string[] | null;

/** All instants are epoch milliseconds; what did not happen is null. */
export interface WatchedBaby extends BabyFacts {
  readonly id: string;
  readonly code: string;
  readonly facility: string;
  /** Phone of who follows it. */
  readonly worker: string;
  readonly status: BabyStatus;
}

/** What was found, most urgent first, with the findings that decided it. */
export type Found = Pick<Classification, 'id' | 'urgency' | 'because'>;

export interface AlertAsk {
  /** Phone. */
  readonly nurse: string;
  readonly why: 'raised' | 'not-taken' | 'passed' | 'beside';
  readonly at: number;
}

export interface WatchedAlert {
  readonly key: string;
  readonly baby: WatchedBaby;
  /** Code and facility as they were when it was raised. */
  readonly code: string;
  readonly facility: string;
  readonly worker: string;
  readonly at: number;
  readonly state: AlertState;
  readonly takenBy: string | null;
  readonly takenAt: number | null;
  readonly closedBy: string | null;
  readonly closedAt: number | null;
  /** Of the entry that raised it, or of the last that joined it. */
  readonly found: readonly Found[];
  /** When something joined it last; null: nothing did. */
  readonly joinedAt: number | null;
  /** Who was asked to take it, in order. */
  readonly asked: readonly AlertAsk[];
  /** When the next person is asked, unless it is taken by then. */
  readonly asksNextAt: number | null;
}

export interface WatchedReferral {
  readonly key: string;
  readonly baby: WatchedBaby;
  readonly code: string;
  /** Facility that sends the baby. */
  readonly from: string;
  /** Facility that it is sent to; null: not on the roster. */
  readonly receiving: string | null;
  readonly worker: string;
  readonly urgency: 'urgent' | 'refer';
  readonly at: number;
  readonly state: ReferralState;
  readonly leftAt: number | null;
  readonly arrivedAt: number | null;
  readonly closedAt: number | null;
  /** The news that closed it. */
  readonly outcome: ReferralNews | null;
  /** Why the family refused. */
  readonly reason: string | null;
  readonly found: readonly Found[];
}

export interface Closed {
  readonly alerts: readonly WatchedAlert[];
  readonly referrals: readonly WatchedReferral[];
}

/** Finding, or field of the baby, and the number read in this look. */
export interface Reading {
  readonly of: string;
  readonly value: number;
}

export interface CourseExamination {
  readonly key: string;
  readonly at: number;
  /** Null: the birth is not known. */
  readonly ageHours: number | null;
  readonly facility: string;
  readonly worker: string;
  /** Null: from before it was noted. */
  readonly flow: string | null;
  readonly urgency: string;
  /** Hash of the flows, protocol and wording that were in force. */
  readonly version: string | null;
  /** 0 the first time it ended; more: reopened, or looked at again, and ended again. */
  readonly revision: number;
  /** 0 the examination, 1 its first second look, and so on. */
  readonly look: number;
  /** A later revision of the same look stands in its place. */
  readonly isCorrected: boolean;
  readonly found: readonly Found[];
  /** What was still to be looked at. */
  readonly missing: readonly string[];
  /** In the order read; only those of this look. */
  readonly readings: readonly Reading[];
}

export interface TimedReading {
  readonly at: number;
  readonly ageHours: number | null;
  readonly value: number;
}

export interface CourseAlert extends WatchedAlert {
  readonly history: readonly { readonly from: AlertState | null; readonly to: AlertState; readonly by: string; readonly at: number }[];
}

export interface CourseReferral extends WatchedReferral {
  readonly history: readonly {
    readonly news: ReferralNews;
    readonly reason: string | null;
    readonly by: string;
    readonly at: number;
    readonly from: ReferralState;
    readonly to: ReferralState;
  }[];
}

export interface CourseWork {
  readonly key: string;
  readonly work: Work;
  readonly dueAt: number;
  readonly times: number;
  /** `void`: it does not stand any more, as when the baby was seen since. */
  readonly state: 'pending' | 'done' | 'missed' | 'void';
  readonly settledAt: number | null;
}

export interface CourseNews {
  readonly news: BabyNews;
  /** Phone of the worker who follows the baby from then on. */
  readonly to: string | null;
  readonly by: string;
  readonly at: number;
}

/** All that the register holds of a baby, each list oldest first. */
export interface BabyCourse {
  readonly baby: WatchedBaby;
  /** As its last examination had it: without days, only the week is known. */
  readonly gestation: Gestation | null;
  readonly examinations: readonly CourseExamination[];
  /** Finding or field -> each reading once, at the time at which it was first written; what was corrected is left out. */
  readonly readings: Readonly<Record<string, readonly TimedReading[]>>;
  readonly alerts: readonly CourseAlert[];
  readonly referrals: readonly CourseReferral[];
  readonly work: readonly CourseWork[];
  readonly news: readonly CourseNews[];
}

export interface FoundBaby extends WatchedBaby {
  /** When it was seen last. */
  readonly seenAt: number;
  /** Of its last examination; null: only an alert has reached the register. */
  readonly urgency: string | null;
  readonly hasOpenAlert: boolean;
  readonly hasOpenReferral: boolean;
}

export interface FailedText {
  readonly key: string;
  readonly at: number;
  /** Phone. */
  readonly recipient: string;
  /** Of the number; null: nobody's any more. */
  readonly facility: string | null;
  readonly baby: string | null;
  readonly urgent: boolean;
  readonly state: 'given-up' | 'undelivered' | 'unknown';
  readonly attempts: number;
  readonly reason: string | null;
  /** Null: erased with the baby that it spoke of. */
  readonly text: string | null;
  /** Phones of those who were told that it was lost. */
  readonly told: readonly string[];
}

/** Days as YYYY-MM-DD, both included, each in the facility's own calendar. */
export interface Days {
  readonly from: string;
  readonly until: string;
}

/** Goes on after the line with the key `before`, newest first. */
export interface AuditPage {
  readonly before?: string;
  readonly limit: number;
}

export interface AuditLine {
  readonly key: string;
  readonly at: number;
  readonly by: string;
  readonly what: string;
  readonly about: string;
  readonly body: unknown;
}

/** One figure of one facility by week. */
export interface FigureSeries {
  readonly name: string;
  /** Null: all facilities together. */
  readonly facility: string | null;
  /** Of all the days; null: there was nothing to count it from. */
  readonly whole: number | null;
  /** Each ISO week of the days, such as 2026-W47. A value that is null is not 0: there was nothing to count it from. */
  readonly weeks: readonly { readonly week: string; readonly value: number | null }[];
}

/** Reads only. Lists hold at most `limit`; nothing of an erased baby is in any of them. */
/** How things stand for whoever watches the server. Instants are null where nothing waits. */
export interface Standing {
  /** Raised, and taken by nobody. */
  readonly alertsOpen: number;
  readonly alertOpenSince: number | null;
  readonly alertsTaken: number;
  /** Waiting to be sent, or sent again. */
  readonly textsDue: number;
  readonly textDueSince: number | null;
  /** Urgent texts that reached nobody, of which no coordinator has been told yet. */
  readonly urgentTextsLost: number;
  /** When the work that is due longest was due. */
  readonly workDueSince: number | null;
}

export interface Watch {
  /** Not closed: those that nobody has taken first, oldest first. */
  openAlerts(facilities: Scope, limit: number): Promise<WatchedAlert[]>;
  /** Not closed, sent from these facilities or to them: urgent ones first, oldest first. */
  openReferrals(facilities: Scope, limit: number): Promise<WatchedReferral[]>;
  /** Closed at or after `since`, newest first; at most `limit` of each kind. */
  closedLately(facilities: Scope, since: number, limit: number): Promise<Closed>;
  /** Null: there is no such baby, or it was erased. Who may see it is for the caller to say, from where it belongs. */
  babyCourse(id: string): Promise<BabyCourse | null>;
  /** Babies whose code begins with the text, whether followed or not; the one seen last first. */
  findBabiesBySearch(facilities: Scope, text: string, limit: number): Promise<FoundBaby[]>;
  /** Texts that reached nobody, or of which nobody knows; newest first. */
  failedTexts(facilities: Scope, days: Days, limit: number): Promise<FailedText[]>;
  auditTrail(page: AuditPage): Promise<AuditLine[]>;
  /** By name, all facilities together first. Together they are counted only where all may be seen. */
  figureSeries(facilities: Scope, days: Days, now: number): Promise<FigureSeries[]>;
  standing(now: number): Promise<Standing>;
}
