// Babies of the register as the dialog sees them, how such a baby is named, and what a turn asks to be looked up before it can be
// taken. src/conversation/followed.ts does the looking up. Next: following.ts.

import type { BabyFacts } from './baby-facts.ts';
import { babyPhrase } from './phrases.ts';
import type { ReferralState } from './referral-question.ts';
import { type Say, say } from './reply.ts';
import type { Examination, NamedBaby } from './session.ts';

/** What a worker does about a baby when it is due. */
export type FollowedWork = 'recheck' | 'contact' | 'refusal-visit';

export interface DueNext {
  readonly work: FollowedWork;
  /** When it was ordered for, in epoch milliseconds, however often she was reminded since. */
  readonly dueAt: number;
  /** From when on it is late. */
  readonly lateAt: number;
  /** It was asked for twice and not done. */
  readonly isMissed: boolean;
}

export interface FollowedBaby extends BabyFacts {
  readonly id: string;
  readonly code: string;
  /** Phone of who follows it. */
  readonly worker: string;
  /** The examination that was begun last; null: none is in the register, or it cannot be read. */
  readonly last: Examination | null;
  /** Soonest first. */
  readonly due: readonly DueNext[];
  /** The one that is not closed. */
  readonly referral: FollowedReferral | null;
}

export interface FollowedReferral {
  readonly key: string;
  readonly state: ReferralState;
  readonly urgency: 'urgent' | 'refer';
  /** Name of the facility that the baby is sent to; null: not on the roster. */
  readonly place: string | null;
}

/** What a turn needs from the register: it is taken again with what was found. */
export type LookUp =
  /** Whom this worker follows and for whom something is due or open. */
  | { readonly kind: 'list' }
  /** Babies of her facility with this code; `rest`: what was said after it. */
  | { readonly kind: 'code'; readonly code: string; readonly rest: string }
  | { readonly kind: 'baby'; readonly id: string };

export type Found =
  | { readonly kind: 'babies'; readonly babies: readonly FollowedBaby[] }
  /** The register cannot be asked now. */
  | { readonly kind: 'away' };

/** One look-up and what it found; a turn may need more than one. */
export interface Answered {
  readonly lookUp: LookUp;
  readonly found: Found;
}

/** Undefined: this was not looked up yet. What was found by one look-up says nothing of another. */
export function answerTo(lookUp: LookUp, answers: readonly Answered[]): Found | undefined {
  return answers.find((one) => nameOf(one.lookUp) === nameOf(lookUp))?.found;
}

function nameOf(lookUp: LookUp): string {
  return lookUp.kind === 'list' ? lookUp.kind : `${lookUp.kind} ${lookUp.kind === 'code' ? lookUp.code : lookUp.id}`;
}

const hour = 3_600_000;

/** "7FK girl 2 days" */
export function namePhrase(baby: Pick<NamedBaby, 'code' | 'sex' | 'bornAt'>, now: number): Say {
  return say('followed.name', { code: baby.code, baby: ageAndSex(baby, now) });
}

/** "girl 2 days" */
export function ageAndSex({ sex, bornAt }: Pick<NamedBaby, 'sex' | 'bornAt'>, now: number): Say {
  return babyPhrase({ sex, ageHours: bornAt === null ? null : Math.max(0, now - bornAt) / hour });
}

export function namedBaby({ id, code, worker, sex, bornAt, referral, last }: FollowedBaby): NamedBaby {
  return {
    id,
    code,
    worker,
    sex,
    bornAt,
    referral: referral === null ? null : { key: referral.key, state: referral.state, place: referral.place },
    hasResult: last !== null,
  };
}
