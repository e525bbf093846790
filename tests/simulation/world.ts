// The world around the application: a clock that jumps from event to event, phones, and a gateway that loses answers, fails, and
// reports late. The application in it is the real one. Next: workers.ts and nurses.ts, who hold the phones; invariants.ts.

import { type Application, buildApplication } from '../../src/cli/application.ts';
import type { Register, Roster, SendText } from '../../src/conversation/ports.ts';
import type { Sent } from '../../src/conversation/records.ts';
import { textReference } from '../../src/conversation/text-reference.ts';
import { inForce } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import type { TestRegister } from '../support/test-register.ts';
import type { Chance } from './chance.ts';

export const SECOND = 1_000;
export const MINUTE = 60 * SECOND;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

export interface TextSeen {
  readonly at: number;
  readonly key: string;
  readonly to: string;
  readonly text: string;
}

export interface World {
  readonly chance: Chance;
  readonly roster: Roster;
  now(): number;
  /** Something that happens so much later. */
  later(milliseconds: number, event: () => Promise<void>): void;
  /** Texts the application and gives back the reply. */
  text(phone: string, words: string): Promise<string>;
  /** What a person does with a text that the application sent. */
  answers(phone: string, hear: (text: string) => void): void;
  /** All that reached the gateway, in order. */
  readonly handedOver: readonly TextSeen[];
  /** All replies to phones, in order. */
  readonly replies: readonly TextSeen[];
  readonly faults: readonly string[];
  /** Runs until then. `hourly` is called at every full hour. */
  run(until: number, hourly: () => Promise<void>): Promise<void>;
}

export interface WorldParts {
  readonly register: TestRegister;
  readonly roster: Roster;
  readonly chance: Chance;
  readonly start: number;
  /** Stands between the world and its parts: for faults put in on purpose. */
  readonly spoil?: {
    readonly register?: (register: Register) => Register;
    readonly send?: (send: SendText) => SendText;
  };
}

interface Event {
  readonly at: number;
  readonly run: () => Promise<void>;
}

/** Shares of the gateway's answers; the rest goes well. Invented. */
const gateway = { lost: 0.02, failed: 0.01, notDelivered: 0.01 };

export async function openWorld({ register, roster, chance, start, spoil = {} }: WorldParts): Promise<World> {
  const events: Event[] = [];
  const inboxes = new Map<string, (text: string) => void>();
  const handedOver: TextSeen[] = [];
  const replies: TextSeen[] = [];
  const faults: string[] = [];
  let clock = start;
  let messages = 0;
  let isWoken = true;
  const later = (milliseconds: number, run: () => Promise<void>): void => {
    const event = { at: clock + milliseconds, run };
    const place = events.findIndex(({ at }) => at > event.at);
    events.splice(place === -1 ? events.length : place, 0, event);
  };
  const deliver = (to: string, text: string): void =>
    later(chance.whole(2, 20) * SECOND, async () => {
      inboxes.get(to)?.(text);
    });
  const report = (key: string, gatewayId: string, isDelivered: boolean): void =>
    later(chance.whole(5, 90) * SECOND, async () => {
      const what = isDelivered ? ({ kind: 'delivered', gatewayId } as const) : ({ kind: 'failed', reason: '30003', gatewayId } as const);
      await register.reportText(textReference(key), what, clock);
      isWoken = true;
    });
  const send: SendText = async ({ key, to, text }): Promise<Sent> => {
    handedOver.push({ at: clock, key, to, text });
    const gatewayId = `SM${handedOver.length}`;
    if (chance.is(gateway.failed)) return { kind: 'failed', reason: 'http 429' };
    const isDelivered = !chance.is(gateway.notDelivered);
    if (isDelivered) deliver(to, text);
    report(key, gatewayId, isDelivered);
    return chance.is(gateway.lost) ? { kind: 'unknown' } : { kind: 'sent', gatewayId };
  };
  const fault = (_about: object, what: string): void => {
    faults.push(what);
  };
  const application: Application = buildApplication({
    stores: { sessions: memorySessions(), register: spoil.register?.(register) ?? register },
    roster,
    published: inForce,
    send: spoil.send?.(send) ?? send,
    screen: { gsm7: 182, ucs2: 70 },
    now: () => clock,
    log: { info: () => {}, warn: fault, error: fault },
    wakeSender: () => {
      isWoken = true;
    },
  });
  /** Does what is due, and says when more is. */
  const work = async (): Promise<number> => {
    isWoken = false;
    while ((await application.sendDue()) > 0);
    const [next] = await register.rows(
      `select least((select min(due_at) from due_work where state = 'pending'), (select min(due_at) from texts_out where state = 'due')) as at`,
    );
    return typeof next?.at === 'number' ? next.at : Number.POSITIVE_INFINITY;
  };
  return {
    chance,
    roster,
    now: () => clock,
    later,
    text: async (phone, words) => {
      messages += 1;
      const { text } = await application.receive({ channel: 'sms', from: phone, id: `m${messages}`, text: words });
      replies.push({ at: clock, key: `m${messages}`, to: phone, text });
      return text;
    },
    answers: (phone, hear) => void inboxes.set(phone, hear),
    handedOver,
    replies,
    faults,
    run: async (until, hourly) => {
      let dueAt = await work();
      let hourAt = clock + HOUR;
      while (clock < until) {
        const [event] = events;
        const at = Math.min(event?.at ?? until, dueAt, hourAt, until);
        clock = Math.max(clock, at);
        if (hourAt <= at) {
          hourAt += HOUR;
          await hourly();
        } else if (event !== undefined && event.at <= at) {
          events.shift();
          await event.run();
          if (isWoken) dueAt = await work();
        } else dueAt = await work();
      }
    },
  };
}

/** The code of the baby that a text speaks of; null when it speaks of none. */
export function codeIn(text: string): string | null {
  return /\b([2-9][A-Z]{2})\b/.exec(text)?.[1] ?? null;
}
