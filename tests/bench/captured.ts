// What the application has the register write for each examination of the mix, caught on its way there. Next: register.ts, which writes it.

import { buildApplication } from '../../src/cli/application.ts';
import type { Register, Waiting } from '../../src/conversation/ports.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openMix } from './mix.ts';

type Batches = readonly (readonly Waiting[])[];

/** Of each examination the entries of its turns, a batch for each transaction; every one by a phone of its own. */
export async function entriesOfExaminations(count: number, start: number): Promise<Batches[]> {
  const { mix, inForce, worker } = openMix();
  const phones = Array.from(
    { length: count },
    (_, number) => `+2547${String(start % 10_000).padStart(4, '0')}${String(number).padStart(4, '0')}`,
  );
  const { facility, zone, nurse, language, mayInject } = worker;
  const roster = rosterOf({
    facilities: [{ id: facility, name: worker.facilityName, zone, nurse, above: null, refersTo: null, travelMinutes: null }],
    people: [
      { phone: nurse, name: 'Invented Nurse', roles: ['nurse'], facility, language, mayInject },
      ...phones.map((phone, number) => ({
        phone,
        name: `Invented Worker ${number}`,
        roles: ['worker' as const],
        facility,
        language,
        mayInject,
      })),
    ],
    shifts: [],
    leave: [],
  });
  let caught: (readonly Waiting[])[] = [];
  let clock = start;
  const nothing = new Proxy({} as Register, {
    get: (_target, name) => {
      if (name !== 'record') return async () => (name === 'alertOf' ? null : []);
      return async (entries: readonly Waiting[]) => void caught.push(entries);
    },
  });
  const application = buildApplication({
    stores: { sessions: memorySessions(), register: nothing },
    ...{ roster, published: () => inForce, screen: { gsm7: 182, ucs2: 70 }, now: () => clock },
    send: async () => ({ kind: 'unknown' }),
    log: { info: () => {}, warn: () => {}, error: () => {} },
  });
  const all: Batches[] = [];
  for (const [number, phone] of phones.entries()) {
    caught = [];
    for (const [at, text] of (mix[number % mix.length] ?? []).entries()) {
      clock += 1000;
      await application.receive({ channel: 'sms', from: phone, id: `SM${phone.slice(1)}-${at}`, text });
    }
    all.push(caught);
  }
  return all;
}
