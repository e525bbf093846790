// Does what is due, again and again: at once when woken, and every few seconds by the clock. One round at a time.

import { faultName } from '../conversation/patience.ts';

const pauseMilliseconds = 5_000;

export interface Working {
  /** There may be something to do now. */
  readonly wake: () => void;
  /** Ends after the round that is going on. */
  readonly stop: () => Promise<void>;
}

/** Takes workOnce: does some of what is due and says how much; 0 when nothing is. */
export function keepWorking(
  workOnce: () => Promise<number>,
  log: { readonly error: (about: object, what: string) => void },
  milliseconds = pauseMilliseconds,
): Working {
  let running: Promise<void> | null = null;
  let again = false;
  let isStopped = false;
  const run = async (): Promise<void> => {
    do {
      again = false;
      try {
        while (!isStopped && (await workOnce()) > 0);
      } catch (error) {
        log.error({ fault: faultName(error) }, 'something that is due could not be done; it is tried again');
      }
    } while (again && !isStopped);
  };
  const wake = (): void => {
    if (isStopped) return;
    again = running !== null;
    running ??= run().finally(() => {
      running = null;
    });
  };
  const timer = setInterval(wake, milliseconds);
  return {
    wake,
    stop: async () => {
      isStopped = true;
      clearInterval(timer);
      await running;
    },
  };
}
