// One district for the tests of follow-up and referrals beside: a health centre that sends its sick babies to a hospital above
// it, one whose hospital is not on the roster, and one that sends where nobody is on call. All invented. Pure: no stores.

import type { Case } from '../../src/clinical/protocol.ts';
import { bindBook } from '../../src/conversation/book.ts';
import type { WorkParts } from '../../src/conversation/due-parts.ts';
import type { FollowUpParts } from '../../src/conversation/follow-up-parts.ts';
import type { Facility, Person } from '../../src/conversation/ports.ts';
import type { BabyRecord, DueWork, ReferralRecord } from '../../src/conversation/records.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import type { AlertFact, ExaminationFact } from '../../src/dialog/facts.ts';
import { say } from '../../src/messages/catalogue.ts';
import { toPlain } from '../../src/messages/gsm7.ts';
import { published } from '../support/desk.ts';

const files = await published();

const facility = (id: string, name: string, nurse: string, more: Partial<Facility> = {}): Facility => ({
  ...{ id, name, nurse, zone: 'Africa/Nairobi', above: null, refersTo: null, travelMinutes: null },
  ...more,
});
const person = (phone: string, name: string, role: Person['roles'][number], of: string, language = 'en'): Person => ({
  ...{ phone, name, language, facility: of },
  roles: [role],
  mayInject: false,
});

export const worker = person('+254700555201', 'Atieno Were', 'worker', 'mwangaza');
export const colleague = person('+254700555202', 'Otieno Were', 'worker', 'mwangaza', 'sw');
export const nurse = person('+254700555212', 'Nurse Kamau', 'nurse', 'mwangaza');
export const receiver = person('+254700555221', 'Nurse Achieng', 'nurse', 'mto');
export const coordinator = person('+254700555231', 'Mary Njeri', 'coordinator', 'mto');
export const stranger = person('+254700555241', 'Nurse Far', 'nurse', 'kilima');
/** Of the hospital where nobody is on call. */
export const doorNumber = '+254700555250';

const everyDay = { kind: 'weekly', weekdays: [1, 2, 3, 4, 5, 6, 7] } as const;
const allDay = { days: everyDay, fromMinute: 0, toMinute: 1440, order: 1 } as const;

export const roster = rosterOf({
  facilities: [
    facility('mwangaza', 'Mwangaza HC', nurse.phone, { above: 'mto', refersTo: 'mto', travelMinutes: 40 }),
    facility('mto', 'Mto Hospital', '+254700555220'),
    facility('bonde', 'Bonde HC', nurse.phone),
    facility('kilima', 'Kilima HC', stranger.phone, { refersTo: 'ziwa' }),
    facility('ziwa', 'Ziwa Hospital', doorNumber),
  ],
  people: [worker, colleague, nurse, receiver, coordinator, stranger],
  shifts: [
    { facility: 'mwangaza', phone: nurse.phone, ...allDay },
    { facility: 'mto', phone: receiver.phone, ...allDay },
  ],
  leave: [],
});

export const parts: FollowUpParts & { readonly published: { readonly catalogues: typeof files.catalogues } } = {
  roster,
  published: { book: bindBook(files), catalogues: files.catalogues, followUp: files.followUp },
  speak: (language, key, values) => toPlain(say(files.catalogues, language, key, values)),
};

export const at = (now: number): WorkParts & typeof parts => ({ ...parts, now });

/** Half past nine in the morning there. */
export const morning = Date.parse('2026-11-25T09:30:00+03:00');
export const minute = 60_000;
export const hour = 60 * minute;
export const day = 24 * hour;
/** `26/11 0430` there. */
export const clock = (instant: number): string =>
  new Date(instant + 3 * hour).toISOString().replace(/^\d+-(\d+)-(\d+)T(\d+):(\d+).*/, '$2/$1 $3$4');

const known = { baby: 'b1', code: '7FK', worker: worker.phone, facility: 'mwangaza' };

/** Everything seen and normal but for these findings. Girl of five hours. */
export function caseOf(findings: Case['findings'], more: Partial<Case> = {}): Case {
  return { ageHours: 5, sex: 'girl', gestation: { weeks: 39 }, birthWeightGrams: 3100, unlisted: 'normal', findings, ...more };
}

/** As the dialog makes it once the examination is finished, begun a quarter of an hour before. */
export function examined(aCase: Case, more: Partial<ExaminationFact> = {}): ExaminationFact {
  const startedAt = morning - 15 * minute;
  const examination: ExaminationFact['examination'] = {
    ...{ id: 'b1', flow: 'first-day-exam', earlier: [], code: '7FK', startedAt, answers: [], messages: 9, alerted: [], revision: 0 },
  };
  const age = aCase.ageHours ?? null;
  return {
    kind: 'examination',
    key: 'examination:b1:0',
    ...known,
    ...{ examination, case: aCase, interpretation: files.interpret(aCase), version: 'v', at: morning },
    facts: {
      sex: aCase.sex ?? null,
      bornAt: age === null ? null : morning - age * hour,
      gestationDays: null,
      birthWeightGrams: aCase.birthWeightGrams ?? null,
      card: null,
    },
    ...more,
  };
}

export function alerted(aCase: Case, more: Partial<AlertFact> = {}): AlertFact {
  const { case: held, interpretation, version } = examined(aCase);
  return {
    kind: 'alert',
    key: 'alert:b1',
    ...known,
    ...{ case: held, interpretation, version, at: morning, isUpdate: false, news: ['x'] },
    ...more,
  };
}

export const urgentCase = caseOf({ convulsion: 'in-this-illness' });

export function baby(more: Partial<BabyRecord> = {}): BabyRecord {
  const { baby: id, code, worker: phone, facility: of } = known;
  const facts = { sex: 'girl', bornAt: morning - 5 * hour, gestationDays: null, birthWeightGrams: 3100, card: null } as const;
  return { id, code, facility: of, worker: phone, ...facts, status: 'followed', last: null, due: [], referral: null, ...more };
}

export function referral(more: Partial<ReferralRecord> = {}): ReferralRecord {
  return {
    key: 'referral:alert:b1',
    ...known,
    ...{ receiving: 'mto', urgency: 'urgent', at: morning, state: 'advised', leftAt: null, arrivedAt: null, outcome: null, reason: null },
    body: { case: urgentCase, interpretation: files.interpret(urgentCase) },
    ...more,
  };
}

export function dueWork(work: DueWork['work'], more: Partial<DueWork> = {}): DueWork {
  return { key: `due:b1:${work}`, work, dueAt: morning, times: 0, body: {}, baby: baby(), alert: null, referral: null, ...more };
}
