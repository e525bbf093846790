// What an all-normal first-day examination costs in one language: every text and screen of it, on a phone of a facility that is
// made up for this. Next: economy.test.ts.

import { buildApplication } from '../../src/cli/application.ts';
import type { Channel, Person, Roster } from '../../src/conversation/ports.ts';
import { measure } from '../../src/messages/segments.ts';
import { published } from '../support/desk.ts';
import { memoryRegister, memorySessions } from '../support/memory-stores.ts';

export interface Exchange {
  readonly sent: string;
  readonly reply: string;
}

export interface Examined {
  readonly exchanges: readonly Exchange[];
  /** True: the examination is in the register, and the baby is well. */
  readonly isWell: boolean;
}

/** The guided way: what is asked is answered, and nothing else is sent. */
export const answersOf = (sex: 'girl' | 'boy'): readonly string[] => [
  `${sex === 'girl' ? 1 : 2} 0430 39 3100`,
  '0',
  '0',
  '0',
  '36.8 44 132',
];
const longestExamination = 40;
const phone = '+254700555301';

export async function examineNormal(language: string, sex: 'girl' | 'boy', channel: Channel): Promise<Examined> {
  const files = await published();
  const register = memoryRegister();
  const person: Person = { phone, name: 'Invented Worker', roles: ['worker'], facility: 'marula', language, mayInject: false };
  const roster: Roster = {
    find: (number) => (number === phone ? person : undefined),
    facility: (id) => ({ id, name: 'Marula HC', zone: 'Africa/Nairobi', nurse: '+254700555012' }),
  };
  let now = Date.parse('2026-11-25T09:30:00+03:00');
  const log = { info: () => {}, warn: () => {}, error: () => {} };
  const { receive } = buildApplication({
    stores: { sessions: memorySessions(), register },
    roster,
    published: files,
    send: async () => ({ kind: 'unknown' }),
    screen: { gsm7: 182, ucs2: 70 },
    now: () => now,
    log,
  });
  const isFinished = (): boolean => [...register.entries.values()].some((entry) => entry.kind === 'examination');

  let keyed = '';
  let messages = 0;
  const exchange = async (sent: string): Promise<Exchange> => {
    now += 60_000;
    messages += 1;
    const isText = channel === 'sms' || messages === 1;
    const isDial = !isText && messages === 2;
    if (!isText && !isDial) keyed = keyed === '' ? sent : `${keyed}*${sent}`;
    const incoming = isText
      ? { channel: 'sms' as const, from: phone, id: `${messages}`, text: sent }
      : { channel, from: phone, id: `${messages}`, text: keyed, dial: 'call' };
    return { sent: isDial ? '' : sent, reply: (await receive(incoming)).text };
  };
  // The cautions are shown once in a worker's life, before the first baby.
  await exchange('MENU');
  const exchanges = [await exchange('BABY')];
  for (const answer of answersOf(sex)) exchanges.push(await exchange(answer));
  while (!isFinished() && messages < longestExamination) exchanges.push(await exchange('0'));
  const bodies = [...register.entries.values()].flatMap((entry) =>
    entry.kind === 'examination' ? [entry.body as { interpretation: { urgency: string } }] : [],
  );
  return { exchanges, isWell: bodies.length === 1 && bodies[0]?.interpretation.urgency === 'routine' };
}

/** Every character is a key, and each screen is sent with one more. Common practice, no source. */
export function keyPresses(exchanges: readonly Exchange[]): number {
  return exchanges.reduce((sum, { sent }) => sum + (sent === '' ? 0 : [...sent].length + 1), 0);
}

export function segmentsOf(texts: readonly string[]): number {
  return texts.reduce((sum, text) => sum + measure(text).segments, 0);
}
