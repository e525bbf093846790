// Sends the texts that are due: claims a few, urgent ones first, sends each, and settles what became of it. Any number of
// processes may do so at once, for a claimed text is nobody else's.

import type { Register, SendText } from './ports.ts';

const batch = 10;
const claimMilliseconds = 60_000;

/** How many texts were tried; 0 when nothing is due. */
export async function sendDue(register: Register, send: SendText, now: () => number): Promise<number> {
  const texts = await register.claimTexts(now(), batch, claimMilliseconds);
  for (const text of texts) {
    const sent = await send({ key: text.key, to: text.to, text: text.text });
    await register.settleText(text.key, sent, now());
  }
  return texts.length;
}
