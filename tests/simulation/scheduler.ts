// A clock that jumps from event to event. What happens is run to its end, with all that follows from it at once, before the next event:
// so that two turns that overlap on the clock interleave at their store calls alone, and the same way for the same seed.
// Next: line.ts, which makes every store call an event.

export interface Scheduler {
  /** Epoch milliseconds. */
  now(): number;
  /** Something that happens so much later. What it gives back is waited for before anything else happens. */
  after(milliseconds: number, happen: () => unknown): void;
  /** Resolves so much later. */
  pause(milliseconds: number): Promise<void>;
  /** Until then, calling `afterEach` after every event. */
  run(until: number, afterEach?: () => Promise<void>): Promise<void>;
}

interface Event {
  readonly at: number;
  readonly happen: () => unknown;
}

export function schedulerAt(start: number): Scheduler {
  /** Soonest last; those of one instant in the order in which they were asked for. */
  const events: Event[] = [];
  let clock = start;
  const after: Scheduler['after'] = (milliseconds, happen) => {
    const at = clock + Math.max(0, milliseconds);
    let [low, high] = [0, events.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((events[middle]?.at ?? at) > at) low = middle + 1;
      else high = middle;
    }
    events.splice(low, 0, { at, happen });
  };
  return {
    now: () => clock,
    after,
    pause: (milliseconds) => new Promise((resolve) => after(milliseconds, resolve)),
    run: async (until, afterEach = async () => {}) => {
      for (let event = events.at(-1); event !== undefined && event.at <= until; event = events.at(-1)) {
        events.pop();
        clock = event.at;
        await event.happen();
        await allThatFollows();
        await afterEach();
      }
      clock = until;
    },
  };
}

/** Every promise that can go on has gone on. */
function allThatFollows(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}
