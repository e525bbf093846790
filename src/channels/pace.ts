// How fast texts go out: a gateway's contract allows so many a second, and refuses or bills what is above. Counted in each
// process for itself. Next: timing.ts.

import type { SendText } from '../conversation/ports.ts';
import { type Timing, wait } from './timing.ts';

const SECOND = 1_000;

/** The same sender, which starts no more than so many texts a second, evenly, in the order in which they were given. */
export function paced(send: SendText, textsASecond: number, timing: Timing): SendText {
  const gap = SECOND / textsASecond;
  let next = 0;
  return async (text) => {
    const now = timing.now();
    const mine = Math.max(now, next);
    next = mine + gap;
    if (mine > now) await wait(timing, mine - now);
    return send(text);
  };
}
