// A whole application with simulated phones, on a clock that only the test moves: sessions in memory, the real register in an
// embedded database that the desks of one file share, each finding it empty. One desk at a time.

import { fileURLToPath } from 'node:url';
import { type Application, buildApplication } from '../../src/cli/application.ts';
import { loadPublished } from '../../src/cli/load-published.ts';
import { loadRoster } from '../../src/cli/load-roster.ts';
import { SimulatedPhones } from '../../src/cli/simulated-phones.ts';
import { bindInForce, type InForce, type Published } from '../../src/conversation/book.ts';
import type { Channel, Receive } from '../../src/conversation/ports.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import type { FollowUp } from '../../src/on-call/follow-up.ts';
import { memorySessions } from './memory-stores.ts';
import { openTestRegister, type TestRegister } from './test-register.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
export const demoRoster = rosterOf(loadRoster(`${root}flows/demo`));

let loaded: Published | undefined;

/** What is published in this checkout, drafts allowed; read once a file of tests. */
export function published(): Published {
  loaded ??= loadPublished({ flows: `${root}flows`, locales: `${root}locales`, PIPIT_ALLOW_DRAFTS: true });
  return loaded;
}

let bound: InForce | undefined;

/** The same, as the application asks it. */
export function inForce(otherwise: Partial<FollowUp> = {}): InForce {
  bound ??= bindInForce(published());
  return { ...bound, followUp: { ...bound.followUp, ...otherwise } };
}

export interface DeskOptions {
  readonly worker: string;
  readonly channel: Channel;
  /** Epoch milliseconds at the start. */
  readonly now: number;
  readonly deliveries?: number;
  /** True: the application is built anew for every message, as after a restart. */
  readonly restarts?: boolean;
  readonly screen?: { readonly gsm7: number; readonly ucs2: number };
  /** What is otherwise than in this checkout. */
  readonly followUp?: Partial<FollowUp>;
}

export interface Desk {
  readonly phones: SimulatedPhones;
  readonly register: TestRegister;
  readonly receive: Receive;
  readonly now: () => number;
  /** Faults that the application logged. */
  readonly faults: string[];
}

export async function openDesk({
  worker,
  channel,
  now,
  deliveries = 1,
  restarts = false,
  screen = { gsm7: 182, ucs2: 70 },
  followUp = {},
}: DeskOptions): Promise<Desk> {
  const nurse = demoRoster.facility(demoRoster.find(worker)?.facility ?? '')?.nurse ?? '';
  const stores = { sessions: memorySessions(), register: openTestRegister() };
  const faults: string[] = [];
  const current = inForce(followUp);
  let clock = now;
  const fault = (_about: object, what: string): void => {
    faults.push(what);
  };
  const build = (): Application =>
    buildApplication({
      stores,
      roster: demoRoster,
      published: () => current,
      send: (text) => phones.outbox(text),
      screen,
      now: () => clock,
      log: { info: () => {}, warn: fault, error: fault },
    });
  const once = restarts ? null : build();
  const receive: Receive = (incoming) => {
    // A second passes with every message, so that no two examinations begin at one instant.
    clock += 1000;
    return (once ?? build()).receive(incoming);
  };
  const phones: SimulatedPhones = new SimulatedPhones({
    worker,
    nurse,
    channel,
    deliveries,
    receive,
    sendDue: () => (once ?? build()).sendDue(),
    advance: (milliseconds) => {
      clock += milliseconds;
    },
  });
  return { phones, register: stores.register, receive, now: () => clock, faults };
}
