// The clock of what waits: handed in, so that a test moves it. Next: pace.ts and smpp/, which wait.

export interface Timing {
  /** Epoch milliseconds. */
  readonly now: () => number;
  /** Runs it after so long; what comes back calls it off. */
  readonly after: (milliseconds: number, run: () => void) => () => void;
}

/** The machine's own clock. A wait keeps no process alive by itself. */
export const machineTiming: Timing = {
  now: Date.now,
  after: (milliseconds, run) => {
    const timer = setTimeout(run, milliseconds).unref();
    return () => clearTimeout(timer);
  },
};

export function wait(timing: Timing, milliseconds: number): Promise<void> {
  return new Promise((resolve) => void timing.after(milliseconds, resolve));
}
