// Workers of a run of kills: one urgent baby after another, each with a code that no other baby has. What a worker reads is held
// against what is known elsewhere at that moment: a nurse that she is told of can know. Of each baby a text that is not urgent falls due as well. Next: end-to-end-kill-nurses.ts.

import { expect } from 'vitest';
import { codeOf } from '../../src/dialog/examination.ts';
import type { Insisting } from './end-to-end-kill-phones.ts';
import type { KilledStores } from './end-to-end-killed-stores.ts';
import { RESULT, type Text, textOf, WHO } from './end-to-end-phones.ts';
import type { Stack } from './end-to-end-stack.ts';

export interface Worker {
  readonly phone: string;
  /** Codes of the babies whose result she has read. */
  readonly results: readonly string[];
}

/** Examines babies until there is nothing more to kill. */
export async function examineThroughKills(
  phone: string,
  { insist }: Insisting,
  stack: Stack,
  stores: KilledStores,
  used: Set<string>,
  goesOn: () => boolean,
): Promise<Worker> {
  const results: string[] = [];
  while (goesOn()) {
    const first = beginning(phone, used);
    const code = codeBegunBy(first);
    const isKnown = (text: string): boolean => text.startsWith(`${code} URGENT`);
    const send = async (text: Text): Promise<string> => {
      const reply = await insist(text);
      if (!reply.includes('Nurse told')) return reply;
      const queued = (): Promise<boolean> => stack.register.texts(phone).then((rows) => rows.some((row) => isKnown(row.text)));
      const isTold = stack.gateway.taken.some(({ body }) => isKnown(body)) || (await stores.despiteKills(queued));
      expect(isTold, `"${reply}", and no nurse can know of ${code}`).toBe(true);
      return reply;
    };
    const say = (body: string): Promise<string> => send(textOf(phone, body));
    await send(first);
    expect(await say('1')).toContain('REFER NOW');
    await say('2');
    await say('0');
    await say('0');
    let reply = await say('38.4 44 132');
    for (let asked = 0; !RESULT.test(reply); asked += 1) {
      expect(asked, `no result: ${reply}`).toBeLessThan(30);
      reply = await say(reply.includes('REFER NOW') ? '2' : '0');
    }
    expect(reply).toContain('REFER NOW');
    expect(reply).toContain(code);
    results.push(code);
    const reminder = { key: `reminder:${code}`, to: phone, text: `${code}: a text that is not urgent.` };
    await stores.despiteKills(() => stack.register.queueTexts([reminder], false));
  }
  return { phone, results };
}

/** The text that begins an examination. Codes come from its id; two babies may share one, and these must not. */
function beginning(phone: string, used: Set<string>): Text {
  for (;;) {
    const text = textOf(phone, `BABY ${WHO}`);
    const code = codeBegunBy(text);
    if (used.has(code)) continue;
    used.add(code);
    return text;
  }
}

const codeBegunBy = ({ from, sid }: Text): string => codeOf(`${from}-sms:${sid}`);
