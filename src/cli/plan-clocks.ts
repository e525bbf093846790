// The nurses that Erlang's formula asks for, put on a simulated clock: one desk for all, one of several desks, one whose nurses are asked
// as follow-up.yaml has it, and one whose nurses are all asked at once. A desk that would take the clock too long to settle is left out.
// Next: src/planning/desk.ts.

import { chanceFrom } from '../economy/chance.ts';
import type { FollowUp } from '../on-call/follow-up.ts';
import { forgettingAlerts, simulateDesk } from '../planning/desk.ts';
import type { Observed } from '../planning/observed.ts';
import type { Desks, Needs, Plan } from '../planning/plan.ts';
import { simulateRota } from '../planning/rota-clock.ts';

export interface Clocks {
  readonly pooled: Observed | null;
  readonly divided: Observed | null;
  /** One of the desks, its nurses asked in the order of a rota, as many at once as follow-up.yaml says. */
  readonly inTurn: Observed | null;
  /** The same, all its nurses asked at once. */
  readonly atOnce: Observed | null;
}

/** Alerts that a clock looks at: so many times those that it takes to forget, so that its batches do not depend on each other. */
const timesForgotten = 250;
const fewestAlerts = 200_000;
/** More would take the clock minutes. */
const mostAlerts = 2_000_000;
const fewestErlangs = 1e-9;
/** Nobody's rota is longer, and the last of them would be asked hours later. */
const longestRota = 30;

export function clocksOf({ busyMinutes, takenWithinMinutes }: Needs, { pooled, divided }: Plan, followUp: FollowUp, seed: number): Clocks {
  const inBusyTimes = (minutes: number): number => minutes / busyMinutes;
  const alertsFor = ({ nursesEach, erlangsEach }: Desks): number =>
    Math.max(fewestAlerts, Math.ceil(timesForgotten * forgettingAlerts(nursesEach, erlangsEach)));
  const clocked = (desks: Desks) => ({
    ...{ nurses: desks.nursesEach, erlangs: desks.erlangsEach, limit: inBusyTimes(takenWithinMinutes), alerts: alertsFor(desks) },
  });
  const canRun = (desks: Desks): boolean => desks.erlangsEach >= fewestErlangs && alertsFor(desks) <= mostAlerts;
  const onClock = (desks: Desks): Observed | null => (canRun(desks) ? simulateDesk(clocked(desks), chanceFrom(seed)) : null);
  const takenWithin = inBusyTimes(followUp.alertTakenWithinMinutes);
  const asked = (atOnce: number): Observed | null =>
    canRun(divided) && divided.nursesEach <= longestRota
      ? simulateRota({ ...clocked(divided), takenWithin, atOnce }, chanceFrom(seed))
      : null;
  const inTurn = asked(followUp.alertAskedAtOnce);
  return {
    pooled: onClock(pooled),
    divided: divided.desks === 1 ? null : onClock(divided),
    inTurn,
    atOnce: divided.nursesEach <= followUp.alertAskedAtOnce ? inTurn : asked(divided.nursesEach),
  };
}
