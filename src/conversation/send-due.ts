// Sends the texts that are due: claims a few, urgent ones first, sends each, and settles what became of it. Any number of
// processes may do so at once, for a claimed text is nobody else's. Texts of one phone go in order; no phone waits for another.

import type { Register, SendText } from './ports.ts';

const batch = 10;
const claimMilliseconds = 60_000;

/** How many texts were tried; 0 when nothing is due. */
export async function sendDue(register: Register, send: SendText, now: () => number): Promise<number> {
  const texts = await register.claimTexts(now(), batch, claimMilliseconds);
  const recipients = new Set(texts.map(({ to }) => to));
  await Promise.all(
    [...recipients].map(async (recipient) => {
      for (const { key, to, text, urgent } of texts.filter((one) => one.to === recipient)) {
        // Should this process die over an urgent text it goes out again; any other must not, since each costs money.
        if (!urgent && !(await register.beginSending(key, now()))) continue;
        await register.settleText(key, await send({ key, to, text }), now());
      }
    }),
  );
  return texts.length;
}
