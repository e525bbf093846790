// The line between one process and what it calls: every call is an event of the scheduler, and meets the weather. A process that died
// hears of nothing any more; what it had on the line may be done all the same. Next: host.ts.

import type { Chance } from './chance.ts';
import type { Scheduler } from './scheduler.ts';
import type { Place, Weather } from './weather.ts';

export interface Caller {
  readonly isAlive: boolean;
  /** Ends the process, now. */
  kill(): void;
}

export interface LineParts {
  readonly scheduler: Scheduler;
  readonly weather: Weather;
  readonly chance: Chance;
}

/** What a call comes to on its way: `error` when it was refused, or when its answer was lost. */
export function call<T>(caller: Caller, place: Place, work: () => Promise<T>, error: () => T | Error, parts: LineParts): Promise<T> {
  const { scheduler, weather, chance } = parts;
  return new Promise((resolve, reject) => {
    if (!caller.isAlive) return;
    const met = weather.meet(place, scheduler.now());
    if (met.kills) caller.kill();
    const isOnTheLine = !met.kills || chance.is(0.5);
    const answer = (settle: () => void): void => scheduler.after(met.back, () => (caller.isAlive ? settle() : undefined));
    const fail = (): void => {
      const told = error();
      answer(() => (told instanceof Error ? reject(told) : resolve(told)));
    };
    scheduler.after(met.there, async () => {
      if (!isOnTheLine) return;
      if (met.does === 'nothing') return fail();
      try {
        const value = await work();
        if (met.answers === 'truly') answer(() => resolve(value));
        else fail();
      } catch (fault) {
        answer(() => reject(fault));
      }
    });
  });
}

export interface LineTo extends LineParts {
  /** Called with what was done, after it was. */
  readonly done: (place: Place, name: string, value: unknown) => void;
  /** Calls that are one transaction with work of the caller's in it. */
  readonly whole: readonly string[];
}

/** A port whose every call goes over the line; calls named in `whole` are rolled back with a caller that died before they were done. */
export function overLine<Port extends object>(port: Port, place: Place, caller: Caller, parts: LineTo): Port {
  return new Proxy(port, {
    get(target, name) {
      const method = Reflect.get(target, name) as unknown;
      if (typeof method !== 'function' || typeof name !== 'string') return method;
      return (...values: unknown[]) =>
        call(
          caller,
          place,
          async () => {
            if (!caller.isAlive && parts.whole.includes(name)) throw new Error('The process that asked is dead.');
            const value = await (method as (...values: unknown[]) => Promise<unknown>).apply(target, values);
            parts.done(place, name, value);
            return value;
          },
          () => new Error(`The ${place} store is away.`),
          parts,
        );
    },
  });
}
