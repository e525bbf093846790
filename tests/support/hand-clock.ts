// A clock that stands until a test moves it: what waits for it runs in the order in which it is due.

import type { Timing } from '../../src/channels/timing.ts';

export interface HandClock extends Timing {
  /** Moves it on; lets go what was waited for by then, each with all that follows from it at once. */
  move(milliseconds: number): Promise<void>;
  /** How long each wait that is not over still takes. */
  pauses(): number[];
}

export function handClock(at = 1_795_000_000_000): HandClock {
  let now = at;
  let waits: { at: number; run: () => void }[] = [];
  return {
    now: () => now,
    after: (milliseconds, run) => {
      const one = { at: now + milliseconds, run };
      waits.push(one);
      return () => {
        waits = waits.filter((other) => other !== one);
      };
    },
    move: async (milliseconds) => {
      // What was begun just now gets as far as it can before time passes.
      await new Promise(setImmediate);
      const end = now + milliseconds;
      for (;;) {
        const [next] = waits.filter((one) => one.at <= end).sort((one, other) => one.at - other.at);
        if (next === undefined) break;
        waits = waits.filter((one) => one !== next);
        now = Math.max(now, next.at);
        next.run();
        await new Promise(setImmediate);
      }
      now = end;
    },
    pauses: () => waits.map((one) => one.at - now),
  };
}
