// The world around the application: a clock, phones, a carrier, stores that outlast the processes, and the processes. The application
// in it is the real one, and so is its register. Next: workers.ts and nurses.ts, who hold the phones; invariants.ts.

import type { Register, Roster, SendText, Sessions, Waiting } from '../../src/conversation/ports.ts';
import { memorySessions } from '../support/memory-stores.ts';
import type { TestRegister } from '../support/test-register.ts';
import type { Prevalence } from './babies.ts';
import { type Carrier, openCarrier, type Shares } from './carrier.ts';
import type { Chance } from './chance.ts';
import { type Host, startHost } from './host.ts';
import { type Scheduler, schedulerAt } from './scheduler.ts';
import { MINUTE, SECOND } from './times.ts';
import type { Weather } from './weather.ts';

export interface World {
  readonly chance: Chance;
  readonly prevalence: Prevalence;
  readonly roster: Roster;
  readonly scheduler: Scheduler;
  readonly carrier: Carrier;
  /** Texts the application and gives back the reply; null: none came while a person waits. */
  text(phone: string, words: string, went?: (ids: readonly string[]) => void): Promise<string | null>;
  /** What a person does with a text that the application sent. */
  answers(phone: string, hear: (text: string) => void): void;
  /** What the application logged as a fault. */
  readonly faults: readonly string[];
  /** What a person saw that must never be. */
  readonly claims: string[];
  /** Nurses who were told that an alert is theirs. */
  readonly tookAlert: { readonly nurse: string; readonly code: string }[];
  /** Entries that wait for the register. */
  kept(): Promise<readonly Waiting[]>;
  /** Runs until then. `changed` is called after every event that changed the register. */
  run(until: number, changed: () => Promise<void>): Promise<void>;
}

export interface WorldParts {
  readonly register: TestRegister;
  readonly roster: Roster;
  readonly chance: Chance;
  readonly prevalence: Prevalence;
  readonly start: number;
  readonly weather: Weather;
  readonly shares: (now: number) => Shares;
  readonly processes: number;
  readonly askedAtOnce: number;
  /** How far the clock is off of a machine that starts then. */
  readonly skew: (now: number) => number;
  /** Stands between the world and its parts: for faults put in on purpose. */
  readonly spoil?: {
    readonly register?: (register: Register) => Register;
    readonly send?: (send: SendText) => SendText;
  };
}

/** How long a person waits for an answer: longer than any gateway goes on trying. */
const personPatience = 4 * MINUTE;
/** What changes that of which claims are made; of those that answer with a count, when it is above 0. */
const changing = new Set(['record', 'moveAlert', 'workDue', 'tellOfLost']);
/** What may leave something to do besides. */
const noticing = new Set(['keep', 'settleText', 'settleBegun']);

export async function openWorld(parts: WorldParts): Promise<World> {
  const { register, roster, chance, prevalence, start, weather, shares, processes, askedAtOnce, skew, spoil = {} } = parts;
  const scheduler = schedulerAt(start);
  const sessions = onOwnClock(memorySessions(), scheduler);
  const inboxes = new Map<string, (text: string) => void>();
  const faults: string[] = [];
  const hosts: Host[] = [];
  let isChanged = false;
  /** Of the register as it stands; undefined: it may have changed since it was asked. */
  let soonest: Promise<number> | undefined;
  const noticed = (): void => {
    for (const host of hosts) host.notice();
  };
  const spoilt = spoil.register?.(register) ?? register;
  const carrier = openCarrier({
    scheduler,
    chance,
    shares: () => shares(scheduler.now()),
    register: spoilt,
    host: () => (hosts.length === 0 ? undefined : chance.pick(hosts)),
    deliver: (to, text) => inboxes.get(to)?.(text),
    reported: () => {
      soonest = undefined;
      noticed();
    },
  });
  const startOne = (): void => {
    hosts.push(
      startHost({
        ...{ scheduler, weather, chance, sessions, register: spoilt, roster, askedAtOnce },
        send: spoil.send?.(carrier.send) ?? carrier.send,
        dueAt: async () => {
          if ((await sessions.kept(1)).length > 0) return scheduler.now();
          soonest ??= dueInRegister(register);
          return soonest;
        },
        changed: (place, name, value) => {
          if (place === 'register') soonest = undefined;
          const isNow = changing.has(name) && value !== 0;
          isChanged ||= isNow;
          if (isNow || noticing.has(name)) noticed();
        },
        logged: (what) => faults.push(what),
        died: (host) => {
          hosts.splice(hosts.indexOf(host), 1);
          scheduler.after(chance.whole(2, 30) * SECOND, startOne);
        },
        skew: skew(scheduler.now()),
      }),
    );
  };
  for (let n = 0; n < processes; n += 1) startOne();
  return {
    ...{ chance, prevalence, roster, scheduler, carrier, faults },
    claims: [],
    tookAlert: [],
    text: (phone, words, went = () => {}) =>
      new Promise((resolve) => {
        went(carrier.bring(phone, words, resolve));
        scheduler.after(personPatience, () => resolve(null));
      }),
    answers: (phone, hear) => void inboxes.set(phone, hear),
    kept: () => sessions.kept(10_000),
    run: (until, changed) =>
      scheduler.run(until, async () => {
        if (!isChanged) return;
        isChanged = false;
        await changed();
      }),
  };
}

/** When something is due next; infinite when nothing is. */
async function dueInRegister(register: TestRegister): Promise<number> {
  const [next] = await register.rows(
    `select least((select min(due_at) from due_work where state = 'pending'), (select min(due_at) from texts_out where state = 'due'),
       (select min(look_at) from begun where state = 'open')) as at`,
  );
  return typeof next?.at === 'number' ? next.at : Number.POSITIVE_INFINITY;
}

/** The code of the baby that a text speaks of; null when it speaks of none. */
export function codeIn(text: string): string | null {
  return /\b([2-9][A-Z]{2})\b/.exec(text)?.[1] ?? null;
}

/** As Redis does it: what it remembers runs out by its own clock, whatever the caller's says. */
function onOwnClock(sessions: Sessions, { now }: Scheduler): Sessions {
  return {
    ...sessions,
    open: (phone, messageId, _now, like) => sessions.open(phone, messageId, now(), like),
    close: (held, messageId, session, reply, _now, like) => sessions.close(held, messageId, session, reply, now(), like),
  };
}
