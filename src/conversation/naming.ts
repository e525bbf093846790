// How texts to people name a baby (code, sex, age; never a name), a place and an instant. Next: follow-up-parts.ts.

import { DateTime } from 'luxon';
import { ageHours } from '../clinical/age.ts';
import type { Case } from '../clinical/protocol.ts';
import { babyPhrase } from '../dialog/phrases.ts';
import { type Say, say } from '../dialog/reply.ts';
import type { Facility, Roster } from './ports.ts';
import type { BabyFacts, ReferralRecord } from './records.ts';

export type Named = Pick<BabyFacts, 'sex' | 'bornAt'>;

/** "girl 5 h" at that instant, or as much of it as is known. */
export function babyNamed({ sex, bornAt }: Named, at: number): Say {
  return babyPhrase({ sex, ageHours: bornAt === null ? null : ageHours(bornAt, at) });
}

/** What the register knows of the baby; while no examination of it is there, what the referral says. */
export function whoIs(baby: Named | null, referral: ReferralRecord | null): Named {
  if (baby !== null && (referral === null || baby.sex !== null || baby.bornAt !== null)) return baby;
  return referral === null ? { sex: null, bornAt: null } : babyOfReferral(referral);
}

export function babyOfReferral({ at, body }: Pick<ReferralRecord, 'at' | 'body'>): Named {
  const aCase: Partial<Case> = (body as { readonly case?: Case } | null)?.case ?? {};
  const age = aCase.ageHours ?? null;
  return { sex: aCase.sex ?? null, bornAt: age === null ? null : at - age * 3_600_000 };
}

/** Where a baby is sent, by its name on the roster. */
export function placeNamed(receiving: string | null, roster: Roster): Say {
  const name = receiving === null ? undefined : roster.facility(receiving)?.name;
  return name === undefined ? say('referral.place') : say('verbatim', { text: name });
}

/** `26/11 0430`, by the clock on the facility's wall. */
export function clockTime(at: number, facility: Facility | undefined): string {
  return DateTime.fromMillis(at, { zone: facility?.zone ?? 'utc' }).toFormat('d/M HHmm');
}

/** `26/11` */
export function calendarDay(at: number, facility: Facility | undefined): string {
  return DateTime.fromMillis(at, { zone: facility?.zone ?? 'utc' }).toFormat('d/M');
}
