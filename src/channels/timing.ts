// The clock of what waits: handed in, so that a test moves it. Next: pace.ts and smpp/, which wait.

export interface Timing {
  /** Milliseconds that never go back; their zero means nothing. */
  readonly now: () => number;
  /** Runs it after so long; what comes back calls it off. */
  readonly after: (milliseconds: number, run: () => void) => () => void;
}

/**
 * The machine's own clock, which nobody sets: by the wall's clock a sender would wait for hours once that is put back. A wait keeps no
 * process alive by itself.
 */
export const machineTiming: Timing = {
  now: () => performance.timeOrigin + performance.now(),
  after: (milliseconds, run) => {
    const timer = setTimeout(run, milliseconds).unref();
    return () => clearTimeout(timer);
  },
};

export function wait(timing: Timing, milliseconds: number): Promise<void> {
  return new Promise((resolve) => void timing.after(milliseconds, resolve));
}
