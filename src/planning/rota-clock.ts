// The same desk with nurses who are asked one after another, or so many at one time, as the program asks them: the first of the rota at
// once, the next when the time limit is over. Who was asked while busy takes the alert when she is free, if nobody has; so further
// rounds, when all were asked, change nothing here. On a simulated clock, since it has no formula that we know. Pure: chance is passed in.
// Next: src/on-call/asking.ts, which decides whom to ask, here and in life.

import { nextAsk } from '../on-call/asking.ts';
import { type Clocked, settlingAlerts, timeFrom } from './desk.ts';
import { type Observed, observe } from './observed.ts';
import { soonestFirst } from './soonest.ts';

export interface RotaClocked extends Clocked {
  /** So many are asked at one time, 1 or more. */
  readonly atOnce: number;
  /** Then the next one is asked; in mean times that a nurse is busy. */
  readonly takenWithin: number;
}

interface Alert {
  readonly at: number;
  readonly asked: string[];
  takenAt: number | null;
}

type Event =
  | { readonly kind: 'comes' }
  | { readonly kind: 'limit'; readonly alert: Alert }
  | { readonly kind: 'free'; readonly nurse: string };

/** Time is counted in mean times that a nurse is busy. */
export function simulateRota(clocked: RotaClocked, chance: () => number): Observed {
  const { nurses, erlangs, limit, takenWithin, atOnce } = clocked;
  if (!(erlangs > 0 && erlangs < nurses)) throw new RangeError(`${nurses} nurses for ${erlangs} erlangs: the queue would never settle.`);
  const settling = settlingAlerts(nurses, erlangs);
  const wanted = settling + clocked.alerts;
  const chain = Array.from({ length: nurses }, (_, nurse) => String(nurse));
  const isBusy = new Set<string>();
  const inbox = new Map<string, Alert[]>(chain.map((nurse) => [nurse, []]));
  const events = soonestFirst<Event>();
  const alerts: Alert[] = [];
  let taken = 0;

  const take = (nurse: string, alert: Alert, now: number): void => {
    alert.takenAt = now;
    taken += 1;
    isBusy.add(nurse);
    events.add(now + timeFrom(chance), { kind: 'free', nurse });
  };
  const ask = (nurse: string, alert: Alert, now: number): void => {
    alert.asked.push(nurse);
    if (isBusy.has(nurse)) inbox.get(nurse)?.push(alert);
    else if (alert.takenAt === null) take(nurse, alert, now);
  };
  const goOn = (alert: Alert, now: number): void => {
    const next = nextAsk({ asked: alert.asked, chain, atOnce, hasPaused: false });
    if (next.kind !== 'ask') return;
    for (const nurse of [next.who, ...next.beside]) ask(nurse, alert, now);
    if (alert.takenAt === null) events.add(now + takenWithin, { kind: 'limit', alert });
  };
  const happens: { readonly [K in Event['kind']]: (event: Extract<Event, { kind: K }>, now: number) => void } = {
    comes: (_event, now) => {
      const alert: Alert = { at: now, asked: [], takenAt: null };
      alerts.push(alert);
      goOn(alert, now);
      events.add(now + timeFrom(chance) / erlangs, { kind: 'comes' });
    },
    limit: ({ alert }, now) => {
      if (alert.takenAt === null) goOn(alert, now);
    },
    free: ({ nurse }, now) => {
      isBusy.delete(nurse);
      const waiting = (inbox.get(nurse) ?? []).filter((alert) => alert.takenAt === null);
      const [first, ...others] = waiting;
      inbox.set(nurse, others);
      if (first !== undefined) take(nurse, first, now);
    },
  };

  events.add(0, { kind: 'comes' });
  // Those who came by then and wait still are waited for, or the longest waits would not be counted.
  while (alerts.length < wanted || taken < alerts.length) {
    const event = events.take();
    if (event === undefined) break;
    if (event.value.kind === 'comes' && alerts.length >= wanted) continue;
    (happens[event.value.kind] as (event: Event, now: number) => void)(event.value, event.at);
  }
  return observe(
    alerts.slice(settling).map(({ at, takenAt }) => (takenAt ?? Number.POSITIVE_INFINITY) - at),
    limit,
  );
}
