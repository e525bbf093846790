// A phone with a PIN for the tests beside, and what makes it ask. The hash is a stand-in; the real one: tests/cli/roster-pins.test.ts.

import type { Person } from '../../../src/conversation/ports.ts';
import { nurse, openStation, otherNurse, pinMilliseconds, rosterWith, type Station, testHash, textAll, worker } from '../station.ts';

export const pin = '4820';
export const wrong = '5937';
export const holder: Person = { ...worker, pin: testHash(pin) };
export const asked = /^PHONE CLOSED\. Send your PIN/;
export const hour = 3_600_000;

type Settings = Parameters<typeof openStation>[0];
export const open = (settings: Settings = {}, people: readonly Person[] = [holder, nurse, otherNurse]): Station =>
  openStation({ roster: rosterWith(people), ...settings });

/** Silent for longer than a phone stays open. */
export function beSilent(station: Station, milliseconds = pinMilliseconds): void {
  station.clock += milliseconds;
}

/** A well girl, whose first questions were answered, then silence. */
export async function leftHalfway(station: Station): Promise<void> {
  await textAll(station, holder, ['LIST', pin, 'BABY 1 0430 39 3100', '0']);
  beSilent(station);
}
