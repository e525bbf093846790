// When the phone asks of its own accord: alerts, referrals, reminders. Only the shape; the values are data
// (flows/protocol/follow-up.yaml, read by src/authoring/read-follow-up.ts) and no time stands in code. Times in whole minutes.
// Next: quiet-hours.ts; src/conversation/follow-up-work.ts, which climbs the ladders.

export type Asked = 'receiving' | 'worker' | 'nurse' | 'coordinator';

/**
 * One step of a ladder: so long after it began to count, these are asked or told. The receiving side and the worker get the
 * question with its digits; the nurse on call and the coordinators are told that nobody confirms it, and are asked to act.
 */
export interface Rung {
  readonly afterMinutes: number;
  readonly asks: readonly Asked[];
}

/** In the order of their times. After the last one nobody is asked any more, and the work stays on the list as missed. */
export type Ladder = readonly Rung[];

export interface FollowUp {
  /** So many people are asked to take an alert at one time, 1 or more; each is told when one of them has taken it. */
  readonly alertAskedAtOnce: number;
  /** An alert that nobody takes goes to the next after this. */
  readonly alertTakenWithinMinutes: number;
  /** After all were asked in vain, all are asked again after this. */
  readonly alertRoundPauseMinutes: number;
  /** Counted from when the referral was advised. */
  readonly hasLeft: Readonly<Record<'urgent' | 'refer', Ladder>>;
  /** Counted from when she should be there. */
  readonly hasArrived: Readonly<Record<'urgent' | 'refer', Ladder>>;
  /** How long the way takes where the roster does not say. */
  readonly travelMinutes: number;
  /** Counted from when she arrived. */
  readonly outcome: Ladder;
  /** Then a referral of which nobody tells is closed as not known. */
  readonly outcomeNotKnownAfterMinutes: number;
  /** A family that refused is seen this often, so many times. */
  readonly refusalVisit: { readonly everyMinutes: number; readonly times: number };
  /** A reminder that is not followed is sent again after this, once. */
  readonly graceMinutes: Readonly<Record<'recheck' | 'contact', number>>;
  /** From birth; contacts of a baby whose age is not known are counted from the examination. */
  readonly contactWhenAgeNotKnownMinutes: number;
  readonly quiet: QuietHours;
}

/** Reminders wait while it is quiet; alerts and questions about urgent babies never do. */
export interface QuietHours {
  /** Minutes of the day, local time. The same twice: never quiet. */
  readonly fromMinute: number;
  readonly toMinute: number;
  /** A recheck ordered to be within this is never held. */
  readonly alwaysWithinMinutes: number;
}
