// The roster that phones are served by, over what the register holds: looked at again every few seconds, and at once for a number
// that it does not know, so that an import takes effect without a restart. While the register is away the last one stays in use.

import { faultName } from '../conversation/patience.ts';
import type { Incoming, Outgoing, Receive, Roster } from '../conversation/ports.ts';
import { type RosterData, rosterOf } from '../conversation/roster.ts';
import type { RosterStore } from '../register/roster.ts';

export interface LiveRoster extends Roster {
  data(): RosterData;
  /** Takes over what was imported since; never throws. Calls at the same time share one look. */
  refresh(): Promise<void>;
}

export interface LiveRosterParts {
  readonly store: Pick<RosterStore, 'lastImport' | 'read'>;
  readonly log: { readonly info: (about: object, what: string) => void; readonly warn: (about: object, what: string) => void };
}

/** Errors: the register is away at the first look. */
export async function openLiveRoster({ store, log }: LiveRosterParts): Promise<LiveRoster> {
  let stored = await store.read();
  let roster = rosterOf(stored.data);
  let isAway = false;
  let looking: Promise<void> | null = null;
  const look = async (): Promise<void> => {
    try {
      if ((await store.lastImport()) !== stored.number) {
        stored = await store.read();
        roster = rosterOf(stored.data);
        log.info({ import: stored.number, people: stored.data.people.length }, 'a roster was imported and is in use now');
      }
      isAway = false;
    } catch (error) {
      if (!isAway) log.warn({ fault: faultName(error) }, 'the register is away; the last roster stays in use');
      isAway = true;
    }
  };
  return {
    data: () => stored.data,
    find: (phone) => roster.find(phone),
    facility: (id) => roster.facility(id),
    facilityOf: (phone) => roster.facilityOf(phone),
    onCall: (facility, at) => roster.onCall(facility, at),
    coordinators: (facility) => roster.coordinators(facility),
    workers: (facility) => roster.workers(facility),
    refresh: () => {
      looking ??= look().finally(() => {
        looking = null;
      });
      return looking;
    },
  };
}

/** Within a gateway's patience, and no longer than a stranger need wait. */
const patienceMilliseconds = 2_000;

/** Looks once more for a number that nobody knows before it is turned away. */
export function knowingNewNumbers(
  receive: Receive,
  roster: Pick<LiveRoster, 'find' | 'refresh'>,
  pause: (milliseconds: number) => Promise<void>,
): Receive {
  return async (incoming: Incoming): Promise<Outgoing> => {
    if (roster.find(incoming.from) === undefined) await Promise.race([roster.refresh(), pause(patienceMilliseconds)]);
    return receive(incoming);
  };
}
