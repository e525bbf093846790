// What an all-normal first-day examination costs in one language: every text and screen of it, on a phone of a facility that is
// made up for this. Next: economy.test.ts.

import { buildApplication } from '../../src/cli/application.ts';
import type { Channel, Person } from '../../src/conversation/ports.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import { say } from '../../src/messages/catalogue.ts';
import { measure } from '../../src/messages/segments.ts';
import { inForce } from '../support/desk.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openTestRegister, type Row } from '../support/test-register.ts';

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
const longestExamination = 100;
const turnPage = '99';
const phone = '+254700555301';

export async function examineNormal(language: string, sex: 'girl' | 'boy', channel: Channel): Promise<Examined> {
  const register = openTestRegister();
  const person: Person = { phone, name: 'Invented Worker', roles: ['worker'], facility: 'marula', language, mayInject: false };
  const nurse = '+254700555012';
  const marula = { id: 'marula', name: 'Marula HC', zone: 'Africa/Nairobi', nurse, above: null, refersTo: null, travelMinutes: null };
  const roster = rosterOf({ facilities: [marula], people: [person], shifts: [], leave: [] });
  let now = Date.parse('2026-11-25T09:30:00+03:00');
  const log = { info: () => {}, warn: () => {}, error: () => {} };
  const { receive } = buildApplication({
    stores: { sessions: memorySessions(), register },
    roster,
    published: inForce,
    send: async () => ({ kind: 'unknown' }),
    screen: { gsm7: 182, ucs2: 70 },
    now: () => now,
    log,
  });
  const found = (): Promise<Row[]> => register.rows('select urgency from examinations');

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
  const exchanges: Exchange[] = [];
  // Every page of a question is read before it is answered: what was not shown was not looked for.
  const next = say(inForce().catalogues, language, 'pager.next');
  const answered = async (sent: string): Promise<void> => {
    exchanges.push(await exchange(sent));
    while (exchanges.at(-1)?.reply.endsWith(`\n${next}`)) exchanges.push(await exchange(turnPage));
  };
  for (const sent of ['BABY', ...answersOf(sex)]) await answered(sent);
  while ((await found()).length === 0 && messages < longestExamination) await answered('0');
  const examinations = await found();
  return { exchanges, isWell: examinations.length === 1 && examinations[0]?.urgency === 'routine' };
}

/** Every character is a key, and each screen is sent with one more. Common practice, no source. */
export function keyPresses(exchanges: readonly Exchange[]): number {
  return exchanges.reduce((sum, { sent }) => sum + (sent === '' ? 0 : [...sent].length + 1), 0);
}

export function segmentsOf(texts: readonly string[]): number {
  return texts.reduce((sum, text) => sum + measure(text).segments, 0);
}
