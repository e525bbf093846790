// A desk on a simulated clock: alerts come at random, whoever is free takes the one that waits longest, and is busy with it for a
// random time. What Erlang C says of it is computed in erlang.ts, by other means; each checks the other. Pure: chance is passed in.
// Next: rota-clock.ts, where nurses are asked one after another.

import { type Observed, observe } from './observed.ts';
import { soonestFirst } from './soonest.ts';

export interface Clocked {
  /** Nurses on call. */
  readonly nurses: number;
  /** Alerts that come in the mean time that a nurse is busy with one; below the number of nurses. */
  readonly erlangs: number;
  /** In mean times that a nurse is busy. */
  readonly limit: number;
  /** Alerts that are looked at. */
  readonly alerts: number;
}

/** Time is counted in mean times that a nurse is busy. */
export function simulateDesk({ nurses, erlangs, limit, alerts }: Clocked, chance: () => number): Observed {
  if (!(erlangs > 0 && erlangs < nurses)) throw new RangeError(`${nurses} nurses for ${erlangs} erlangs: the queue would never settle.`);
  const free = soonestFirst<null>();
  for (let nurse = 0; nurse < nurses; nurse += 1) free.add(0, null);
  const settling = settlingAlerts(nurses, erlangs);
  const waits: number[] = [];
  let at = 0;
  for (let alert = 0; alert < settling + alerts; alert += 1) {
    at += timeFrom(chance) / erlangs;
    const taken = Math.max(at, free.take()?.at ?? at);
    free.add(taken + timeFrom(chance), null);
    if (alert >= settling) waits.push(taken - at);
  }
  return observe(waits, limit);
}

/**
 * Alerts that come while a desk forgets how it began: a desk with hardly more nurses than work forgets slowly.
 *
 * Source  the relaxation time of M/M/c, at most 1 / (sqrt(c) - sqrt(a))^2 mean times of service; from memory.
 */
export function forgettingAlerts(nurses: number, erlangs: number): number {
  return erlangs * (1 + (Math.sqrt(nurses) - Math.sqrt(erlangs)) ** -2);
}

/** Alerts before the clock counts: a desk begins with nobody busy. */
export function settlingAlerts(nurses: number, erlangs: number): number {
  return Math.ceil(10 * forgettingAlerts(nurses, erlangs)) + 200;
}

/** A random time of mean 1, as the time between events that come at random has it. */
export function timeFrom(chance: () => number): number {
  return -Math.log(1 - chance());
}
