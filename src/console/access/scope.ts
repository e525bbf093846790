// Which facilities an account sees: that of its person on the roster and all below it; of an account without a person, all.

import type { Account } from '../../conversation/accounts.ts';
import { chainFrom } from '../../on-call/chain.ts';
import type { LiveRosterView } from '../ports.ts';

/** Ids; null: all, also for who stands above every facility. A number that is on the roster no more sees none. */
export function facilitiesOf({ phone }: Account, roster: LiveRosterView): readonly string[] | null {
  if (phone === null) return null;
  const own = roster.find(phone)?.facility;
  if (own === undefined) return [];
  const { facilities } = roster.data();
  const seen = facilities.filter(({ id }) => chainFrom(id, (one) => roster.facility(one)).some((above) => above.id === own));
  return seen.length === facilities.length ? null : seen.map(({ id }) => id);
}
