// The phone company and its gateway. Inwards: a text is brought to any process that lives, again when no answer comes, twice for no
// reason, under a second id, late; its answer may get lost on the way to the phone. Outwards: texts fail, are not delivered, and are
// reported on late. Shares are invented. Next: world.ts.

import type { Register, SendText } from '../../src/conversation/ports.ts';
import type { Sent } from '../../src/conversation/records.ts';
import { textReference } from '../../src/conversation/text-reference.ts';
import type { Chance } from './chance.ts';
import type { Host } from './host.ts';
import type { Scheduler } from './scheduler.ts';
import { SECOND } from './times.ts';

export interface Shares {
  /** Inwards. */
  readonly broughtTwice: number;
  readonly twoIds: number;
  readonly late: number;
  readonly replyLost: number;
  /** Outwards. */
  readonly failed: number;
  readonly notDelivered: number;
  /** The gateway sent it, and its answer says nothing. */
  readonly silent: number;
}

export const roughShares: Shares = {
  ...{ broughtTwice: 0.02, twoIds: 0.01, late: 0.02, replyLost: 0.01 },
  ...{ failed: 0.02, notDelivered: 0.02, silent: 0.03 },
};
export const usualShares: Shares = {
  ...{ broughtTwice: 0, twoIds: 0, late: 0, replyLost: 0 },
  ...{ failed: 0.01, notDelivered: 0.01, silent: 0.02 },
};

/** The gateway's own patience with an answer, its pauses before it brings a text again, and after how long it has given up for good. */
const answerPatience = 15 * SECOND;
const pauses = [5 * SECOND, 20 * SECOND, 40 * SECOND];
const longestLate = 60 * SECOND;

export interface TextSeen {
  readonly at: number;
  readonly key: string;
  readonly to: string;
  readonly text: string;
}

export interface Carrier {
  /** Brings a text; `heard` is called once, with the first reply that reaches the phone, if one does. Returns the ids it went under. */
  bring(from: string, words: string, heard: (reply: string) => void): readonly string[];
  readonly send: SendText;
  /** All that was handed over to go out, in order. */
  readonly handedOver: readonly TextSeen[];
  /** What of it reached a phone. */
  readonly delivered: readonly TextSeen[];
  /** Key -> how often it may go out once more, since it is known to have failed. */
  readonly failures: ReadonlyMap<string, number>;
  /** All answers to texts, each once. */
  readonly replies: readonly TextSeen[];
}

export interface CarrierParts {
  readonly scheduler: Scheduler;
  readonly chance: Chance;
  readonly shares: () => Shares;
  readonly register: Register;
  /** A process that lives; undefined: none does. */
  readonly host: () => Host | undefined;
  /** Brings a text to the phone. */
  readonly deliver: (to: string, text: string) => void;
  readonly reported: () => void;
}

export function openCarrier(parts: CarrierParts): Carrier {
  const { scheduler, chance, register } = parts;
  const handedOver: TextSeen[] = [];
  const delivered: TextSeen[] = [];
  const replies: TextSeen[] = [];
  const failures = new Map<string, number>();
  let messages = 0;
  let ids = 0;

  const bringOnce = (from: string, id: string, text: string): Promise<string | null> => {
    const host = parts.host();
    if (host === undefined) return Promise.resolve(null);
    const answer = host.receive({ channel: 'sms', from, id, text }).then(
      (outgoing) => outgoing.text,
      () => null,
    );
    return Promise.race([answer, scheduler.pause(answerPatience).then(() => null)]);
  };
  const bringUntilAnswered = async (from: string, id: string, text: string): Promise<string | null> => {
    for (const pause of [0, ...pauses]) {
      await scheduler.pause(pause);
      const reply = await bringOnce(from, id, text);
      if (reply !== null) return reply;
    }
    return null;
  };
  const failed = (key: string): void => void failures.set(key, (failures.get(key) ?? 0) + 1);
  const deliver = (text: Omit<TextSeen, 'at'>): void =>
    scheduler.after(chance.whole(2, 20) * SECOND, () => {
      delivered.push({ at: scheduler.now(), ...text });
      parts.deliver(text.to, text.text);
    });
  const report = (key: string, gatewayId: string, isDelivered: boolean): void =>
    scheduler.after(chance.whole(5, 90) * SECOND, async () => {
      const what = isDelivered ? ({ kind: 'delivered', gatewayId } as const) : ({ kind: 'failed', reason: '30003', gatewayId } as const);
      await register.reportText(textReference(key), what, scheduler.now());
      parts.reported();
    });

  return {
    handedOver,
    delivered,
    failures,
    replies,
    bring(from, words, heard) {
      const shares = parts.shares();
      let isHeard = false;
      const carry = async (id: string, wait: number): Promise<void> => {
        await scheduler.pause(wait);
        const reply = await bringUntilAnswered(from, id, words);
        if (reply === null) return;
        replies.push({ at: scheduler.now(), key: id, to: from, text: reply });
        if (chance.is(shares.replyLost) || isHeard) return;
        isHeard = true;
        heard(reply);
      };
      messages += 1;
      const carried = [`m${messages}`];
      const wait = chance.is(shares.late) ? chance.whole(1, longestLate) : chance.whole(1, 400);
      void carry(`m${messages}`, wait);
      if (chance.is(shares.broughtTwice)) void carry(`m${messages}`, wait + chance.whole(0, 20 * SECOND));
      else if (chance.is(shares.twoIds)) {
        carried.push(`m${messages}-again`);
        void carry(`m${messages}-again`, wait + chance.whole(0, 2 * SECOND));
      }
      return carried;
    },
    send: async ({ key, to, text }): Promise<Sent> => {
      const shares = parts.shares();
      handedOver.push({ at: scheduler.now(), key, to, text });
      ids += 1;
      const gatewayId = `SM${ids}`;
      if (chance.is(shares.failed)) {
        failed(key);
        return { kind: 'failed', reason: 'http 429' };
      }
      const isDelivered = !chance.is(shares.notDelivered);
      if (isDelivered) deliver({ key, to, text });
      else failed(key);
      report(key, gatewayId, isDelivered);
      return chance.is(shares.silent) ? { kind: 'unknown' } : { kind: 'sent', gatewayId };
    },
  };
}
