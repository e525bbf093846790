// Whatever phones send, over both channels and in every language, gets words back that a worker can read and afford; and what
// is written in the register is the same however often each message was delivered. The whole application over stores in memory.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildApplication } from '../../src/cli/application.ts';
import { bindInForce, type Published } from '../../src/conversation/book.ts';
import type { Channel, Outgoing } from '../../src/conversation/ports.ts';
import type { Catalogue } from '../../src/messages/catalogue.ts';
import { fitsScreen, type ScreenLimit } from '../../src/messages/screens.ts';
import { measure } from '../../src/messages/segments.ts';
import { demoRoster, published } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { mostSegments } from '../support/reply-limits.ts';
import { openTestRegister, type Row } from '../support/test-register.ts';
import { morning } from './any-dialog.ts';
import { anyEvents, commandWords, type Event, shownDigits, textOf } from './any-message.ts';

const files = await published();
const words = commandWords(files.catalogues);
const workers = ['+254700555101', '+254700555102', '+254700555103', '+254700555104'];
const usualScreen: ScreenLimit = { gsm7: 182, ucs2: 70 };
const screens = [usualScreen, { gsm7: 160, ucs2: 70 }];
const isGsm7 = ({ alphabet }: Catalogue): boolean => alphabet === 'gsm-7';
const gsm7Only: Published = {
  ...files,
  catalogues: { base: files.catalogues.base, byTag: new Map([...files.catalogues.byTag].filter(([, one]) => isGsm7(one))) },
};

/** The cautions of the very first reply, and doses for those who may give them, may take one segment more. */
const extra = (at: number, worker: string): number => (at === 0 || demoRoster.find(worker)?.mayInject ? 1 : 0);
const messageKey =
  /\b(?:ask|marks|signs|values|told|refused|result|advice|classifications|menu|explain|alert|system|fields|examples|findings|doubts|followed|referral|follow-up)\.[a-z-]+\b/u;
const broken = /undefined|null|NaN|\[object|[{}]/u;

interface Way {
  readonly screen?: ScreenLimit;
  readonly deliveries?: number;
  readonly served?: Published;
}

interface Played {
  readonly said: readonly { readonly channel: Channel; readonly text: string; readonly sent: string }[];
  /** All that is in the register. */
  readonly written: Readonly<Record<string, readonly Row[]>>;
  readonly faults: readonly string[];
}

/** Plays the events on one phone. A message is handed over `deliveries` times, at one and the same instant. */
async function play(
  events: readonly Event[],
  worker: string,
  { screen = usualScreen, deliveries = 1, served = files }: Way = {},
): Promise<Played> {
  const register = openTestRegister();
  const inForce = bindInForce(served);
  let now = morning;
  const faults: string[] = [];
  const fault = (_: object, what: string): void => void faults.push(what);
  const { receive } = buildApplication({
    stores: { sessions: memorySessions(), register },
    roster: demoRoster,
    published: () => inForce,
    send: async () => ({ kind: 'sent', gatewayId: 'invented' }),
    screen,
    now: () => now,
    log: { info: () => {}, warn: fault, error: fault },
  });
  const said: { channel: Channel; text: string; sent: string }[] = [];
  let channel: Channel = 'sms';
  let call: Call | null = null;
  for (const [at, event] of events.entries()) {
    now += 1000;
    if (event.kind === 'wait') now += event.hours * 3_600_000;
    if (event.kind === 'drop' || event.kind === 'dial' || event.kind === 'switch') call = null;
    if (event.kind === 'switch') channel = channel === 'sms' ? 'ussd' : 'sms';
    if (event.kind === 'drop' || event.kind === 'wait') continue;
    const digits = shownDigits(said.at(-1)?.text ?? '');
    const text = textOf(event, digits, lastCodeIn(said.map((one) => one.text)));
    if (channel === 'ussd') call = keyIn(call ?? { id: `call-${at}`, keyed: null }, text);
    const incoming =
      call === null
        ? { channel, from: worker, id: `sms-${at}`, text }
        : { channel, from: worker, id: `${call.id}:${call.keyed}`, text: call.keyed, dial: call.id };
    const answers: Outgoing[] = [];
    for (let delivery = 0; delivery < deliveries; delivery += 1) answers.push(await receive(incoming));
    for (const answer of answers.slice(1)) expect(answer).toEqual(answers[0]);
    const outgoing = answers[0] ?? { text: '', ends: true };
    said.push({ channel, text: outgoing.text, sent: text });
    if (outgoing.ends) call = null;
  }
  return { said, written: await register.dump(), faults };
}

/** The code that was shown last; one that nobody has while none was. */
function lastCodeIn(texts: readonly string[]): string {
  return (
    texts
      .join(' ')
      .match(/\b[2-9][A-Z]{2}\b/g)
      ?.at(-1) ?? '7FK'
  );
}

interface Call {
  readonly id: string;
  /** All that was keyed since the dial. */
  readonly keyed: string;
}

/** The first request of a call carries nothing; each later one all that was keyed. */
function keyIn(call: { readonly id: string; readonly keyed: string | null }, text: string): Call {
  if (call.keyed === null) return { id: call.id, keyed: '' };
  return { id: call.id, keyed: call.keyed === '' ? text : `${call.keyed}*${text}` };
}

const anyWorker = fc.constantFrom(...workers.filter((phone) => demoRoster.find(phone) !== undefined));

describe('any sequence of messages', () => {
  it('gets a reply each time that is whole, affordable, and fits its screen', async () => {
    await fc.assert(
      fc.asyncProperty(anyEvents(words, 60), anyWorker, fc.constantFrom(...screens), async (events, worker, screen) => {
        const { said, faults } = await play(events, worker, { screen });
        expect(faults).toEqual([]);
        for (const [at, { channel, text, sent }] of said.entries()) {
          expect(text.trim(), `an answer to "${sent}"`).not.toBe('');
          expect(text).not.toMatch(broken);
          expect(text.replace(sent, '')).not.toMatch(messageKey);
          if (channel === 'ussd') expect(fitsScreen(text, screen), text).toBe(true);
          if (channel === 'sms')
            expect(measure(text).segments, text).toBeLessThanOrEqual(mostSegments[measure(text).alphabet] + extra(at, worker));
        }
      }),
      { numRuns: 80 },
    );
  });

  it('takes at most two segments a reply where only languages of GSM-7 are spoken, whatever script is sent', async () => {
    await fc.assert(
      fc.asyncProperty(anyEvents(words, 40), anyWorker, async (events, worker) => {
        const { said } = await play(events, worker, { served: gsm7Only });
        for (const [at, { channel, text }] of said.entries()) {
          if (channel === 'sms') expect(measure(text).segments, text).toBeLessThanOrEqual(mostSegments['gsm-7'] + extra(at, worker));
        }
      }),
      { numRuns: 40 },
    );
  });

  it('writes the same in the register when each message is delivered twice', async () => {
    await fc.assert(
      fc.asyncProperty(anyEvents(words, 50), anyWorker, async (events, worker) => {
        const once = await play(events, worker);
        const twice = await play(events, worker, { deliveries: 2 });
        expect(twice.said).toEqual(once.said);
        expect(twice.written).toEqual(once.written);
      }),
      { numRuns: 20 },
    );
  });
});
