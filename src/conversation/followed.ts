// Looks up what a turn of the dialog asks the register for, and hands it over as the dialog knows it. Nobody waits long: a
// register that is away or hangs is said to be. Next: src/dialog/following.ts, receive.ts.

import { codeOf } from '../dialog/examination.ts';
import type { DueNext, FollowedBaby, FollowedWork, Found, LookUp } from '../dialog/followed.ts';
import type { Examination } from '../dialog/session.ts';
import type { FollowUp } from '../on-call/follow-up.ts';
import { whoIs } from './naming.ts';
import { within } from './patience.ts';
import type { Person, Register, Roster } from './ports.ts';
import type { BabyRecord, DueRecord } from './records.ts';
import type { RefusalVisitBody } from './referrals/due-refusal-visit.ts';
import type { ContactBody } from './reminders/contact-due.ts';
import type { RecheckBody } from './reminders/schedule.ts';

export interface LookUpParts {
  readonly register: Pick<Register, 'findBabies' | 'listBabies'>;
  readonly roster: Roster;
  readonly followUp: FollowUp;
  readonly pause: (milliseconds: number) => Promise<void>;
  readonly log: { readonly error: (about: object, what: string) => void };
}

/** Together with the writing of facts well within the phone's lock and a gateway's patience. */
const patienceMilliseconds = 2_000;
/** What is due until this time tomorrow is listed, so that a day's visits can be planned. */
const aheadMilliseconds = 24 * 3_600_000;
const mostListed = 30;

export async function lookUpBabies(lookUp: LookUp, person: Person, now: number, parts: LookUpParts): Promise<Found> {
  const asked = await within(patienceMilliseconds, recordsOf(lookUp, person, now, parts), parts.pause);
  if (asked.kind === 'had') return { kind: 'babies', babies: asked.value.map((record) => followedBaby(record, parts)) };
  parts.log.error({ fault: asked.fault, lookUp: lookUp.kind }, 'the register is away; a worker was told that her babies cannot be listed');
  return { kind: 'away' };
}

async function recordsOf(lookUp: LookUp, { phone, facility }: Person, now: number, { register }: LookUpParts): Promise<BabyRecord[]> {
  switch (lookUp.kind) {
    case 'list':
      return register.listBabies(phone, now + aheadMilliseconds, mostListed);
    case 'code':
      return register.findBabies(facility, phone, lookUp.code);
    case 'baby':
      // A baby's code follows from its id.
      return (await register.findBabies(facility, phone, codeOf(lookUp.id))).filter(({ id }) => id === lookUp.id);
  }
}

/** A baby of whom only an alert is in the register yet is known by what its referral tells. */
function followedBaby(record: BabyRecord, { roster, followUp }: LookUpParts): FollowedBaby {
  const { id, code, worker, gestationDays, birthWeightGrams, card, referral } = record;
  const { sex, bornAt } = whoIs(record, referral);
  return {
    ...{ id, code, worker, sex, bornAt, gestationDays, birthWeightGrams, card },
    last: examinationIn(record.last?.body),
    due: record.due.flatMap((one) => dueNext(one, followUp)).sort((a, b) => a.dueAt - b.dueAt),
    referral:
      referral === null || referral.state === 'closed'
        ? null
        : {
            ...{ key: referral.key, state: referral.state, urgency: referral.urgency },
            place: (referral.receiving === null ? undefined : roster.facility(referral.receiving)?.name) ?? null,
          },
  };
}

const ofWorker: readonly string[] = ['recheck', 'contact', 'refusal-visit'] satisfies readonly FollowedWork[];
const minute = 60_000;

/** When it was ordered for; the register's own time moves on with every reminder. */
function dueNext({ work, dueAt: remindedAt, state, body }: DueRecord, { refusalVisit }: FollowUp): DueNext[] {
  if (!ofWorker.includes(work)) return [];
  const told = (body ?? {}) as Partial<ContactBody & RecheckBody & RefusalVisitBody>;
  const every = work === 'refusal-visit' ? refusalVisit.everyMinutes * minute : 0;
  const orderedFor = told.from ?? (told.since === undefined ? remindedAt : told.since + every);
  const dueAt = Math.min(orderedFor, remindedAt);
  return [{ work: work as FollowedWork, dueAt, lateAt: Math.max(told.to ?? 0, dueAt + every), isMissed: state === 'missed' }];
}

/** Null: there is none, or it was written in a shape that is no longer known; the baby is then seen anew. */
function examinationIn(body: unknown): Examination | null {
  const { examination } = (body ?? {}) as { readonly examination?: Partial<Examination> };
  if (examination === undefined || examination === null) return null;
  const { id, flow, earlier, answers, alerted, startedAt } = examination;
  const isWhole =
    typeof id === 'string' &&
    typeof flow === 'string' &&
    typeof startedAt === 'number' &&
    [earlier, answers, alerted].every((list) => Array.isArray(list));
  return isWhole ? (examination as Examination) : null;
}
