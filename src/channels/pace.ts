// How fast texts go out: a gateway's contract allows so many a second, and refuses or bills what is above. Counted in each
// process for itself. Next: timing.ts.

import type { SendText } from '../conversation/ports.ts';
import { type Timing, wait } from './timing.ts';

const SECOND = 1_000;

/** Resolves for each who asks, in order and evenly, no more than so many times a second. */
export function turnstile(timesASecond: number, timing: Timing): () => Promise<void> {
  const gap = SECOND / timesASecond;
  let next = 0;
  return async () => {
    const now = timing.now();
    const mine = Math.max(now, next);
    next = mine + gap;
    if (mine > now) await wait(timing, mine - now);
  };
}

/** The same sender, which starts no more than so many texts a second. */
export function paced(send: SendText, textsASecond: number, timing: Timing): SendText {
  const pass = turnstile(textsASecond, timing);
  return async (text) => {
    await pass();
    return send(text);
  };
}
