// One facility for the tests beside: its people, its stores in memory, and a clock that only the test moves. All invented.

import { bindBook } from '../../src/conversation/book.ts';
import type { Incoming, Outgoing, Person, Register, Roster, SendText, Sessions } from '../../src/conversation/ports.ts';
import { receiver } from '../../src/conversation/receive.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import { sendDue } from '../../src/conversation/send-due.ts';
import { keptWriter } from '../../src/conversation/write-kept.ts';
import { published } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openTestRegister, type TestRegister } from '../support/test-register.ts';

const files = await published();
const current = { book: bindBook(files), catalogues: files.catalogues, followUp: files.followUp };

export const worker: Person = {
  phone: '+254700555201',
  name: 'Atieno Were',
  roles: ['worker'],
  facility: 'mwangaza',
  language: 'en',
  mayInject: true,
};
export const nurse: Person = {
  phone: '+254700555212',
  name: 'Nurse Kamau',
  roles: ['nurse'],
  facility: 'mwangaza',
  language: 'en',
  mayInject: true,
};
export const otherNurse: Person = { ...nurse, phone: '+254700555213', name: 'Nurse Chebet' };
/** Takes alerts and examines babies. */
export const nurseWorker: Person = { ...nurse, phone: '+254700555214', name: 'Nurse Auma', roles: ['nurse', 'worker'] };

const people = [worker, nurse, otherNurse, nurseWorker];
const mwangaza = { id: 'mwangaza', name: 'Mwangaza HC', zone: 'Africa/Nairobi', nurse: nurse.phone };
const always = { days: { kind: 'weekly', weekdays: [1, 2, 3, 4, 5, 6, 7] }, fromMinute: 0, toMinute: 1440 } as const;
export const rosterWith = (them: readonly Person[]): Roster =>
  rosterOf({
    facilities: [{ ...mwangaza, above: null, refersTo: null, travelMinutes: null }],
    people: them,
    shifts: [{ ...always, facility: 'mwangaza', phone: nurse.phone, order: 1 }],
    leave: [],
  });
const roster = rosterWith(people);

export interface Station {
  readonly register: TestRegister;
  readonly sessions: Sessions;
  readonly faults: readonly string[];
  /** Texts that were sent, each with whom it was for. */
  readonly sent: readonly { readonly to: string; readonly text: string }[];
  /** How often a message said that something may be due at once. */
  readonly woken: number;
  /** Pauses that were asked for, in milliseconds. */
  readonly pauses: readonly number[];
  clock: number;
  /** True: no text can be sent. */
  gatewayIsDown: boolean;
  text(from: Person, text: string, id?: string): Promise<string>;
  key(from: Person, dial: string, keyed: string): Promise<Outgoing>;
  /** Sends what is due; the texts that reached this person since the last look. */
  textsOf(person: Person): Promise<string[]>;
  /** Writes what was kept while the register was down. */
  writeKept(): Promise<number>;
}

export interface StationSettings {
  readonly sessions?: Sessions;
  readonly register?: (register: TestRegister) => Register;
  /** Left out: texts are told apart by their ids alone, for these phones send faster than a person. */
  readonly sameTextMilliseconds?: number;
  /** Left out: that of the people above. */
  readonly roster?: Roster;
  readonly isPin?: (digits: string, hash: string) => Promise<boolean>;
}

export const pinMilliseconds = 15 * 60_000;

/** Stands for the hash of a PIN where nothing is hashed. */
export const testHash = (digits: string): string => `hash of ${digits}`;

/** Half past nine in the morning at the facility. */
export const morning = Date.parse('2026-11-25T09:30:00+03:00');
/** Longer pauses are limits on how long something may take, and nothing here takes long. */
const longestWait = 1_000;

export function openStation(settings: StationSettings = {}): Station {
  const register = openTestRegister();
  const sessions = settings.sessions ?? memorySessions();
  const [faults, pauses]: [string[], number[]] = [[], []];
  const sent: { to: string; text: string }[] = [];
  const fault = (_: object, what: string): void => void faults.push(what);
  const send: SendText = async ({ key, to, text }) => {
    if (station.gatewayIsDown) return { kind: 'failed', reason: 'no gateway' };
    sent.push({ to, text });
    return { kind: 'sent', gatewayId: key };
  };
  const receive = receiver({
    sessions,
    register: settings.register?.(register) ?? register,
    roster: settings.roster ?? roster,
    published: () => current,
    screen: { gsm7: 182, ucs2: 70 },
    sameTextMilliseconds: settings.sameTextMilliseconds ?? 0,
    pinMilliseconds,
    isPin: settings.isPin ?? (async (digits, hash) => hash === testHash(digits)),
    send,
    wakeSender: () => {
      woken += 1;
    },
    now: () => station.clock,
    pause: (milliseconds) => {
      pauses.push(milliseconds);
      return milliseconds > longestWait ? new Promise(() => {}) : Promise.resolve();
    },
    log: { warn: fault, error: fault },
  });
  let woken = 0;
  let messages = 0;
  let looked = 0;
  const deliver = (incoming: Incoming): Promise<Outgoing> => {
    station.clock += 1000;
    return receive(incoming);
  };
  const station: Station = {
    register,
    sessions,
    faults,
    sent,
    get woken() {
      return woken;
    },
    pauses,
    clock: morning,
    gatewayIsDown: false,
    async text(from, text, id) {
      messages += 1;
      return (await deliver({ channel: 'sms', from: from.phone, id: id ?? `sms-${messages}`, text })).text;
    },
    key: (from, dial, keyed) => deliver({ channel: 'ussd', from: from.phone, id: `${dial}:${keyed}`, text: keyed, dial }),
    async textsOf(person) {
      while ((await sendDue(register, send, () => station.clock)) > 0);
      const fresh = sent.slice(looked);
      looked = sent.length;
      return fresh.filter(({ to }) => to === person.phone).map(({ text }) => text);
    },
    writeKept: keptWriter({
      sessions,
      register,
      send,
      now: () => station.clock,
      refused: ({ kind }) => void faults.push(`${kind} refused`),
    }),
  };
  return station;
}

/** Sends texts one after another; the last reply. */
export async function textAll(station: Station, from: Person, texts: readonly string[]): Promise<string> {
  let reply = '';
  for (const text of texts) reply = await station.text(from, text);
  return reply;
}

/** A baby with a fit: the shortest way to an alert. The code that the nurse was told. */
export async function raiseAlert(station: Station, from: Person = worker): Promise<string> {
  await textAll(station, from, ['BABY 1 0430 39 3100', '1']);
  const [told = ''] = await station.textsOf(nurse);
  return told.slice(0, 3);
}
