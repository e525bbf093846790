// Which alert a code means, when babies of several facilities share it: one that is hers to speak of, told apart where need be
// by the last three digits of the worker's number. Next: nurse.ts.

import { normalise } from '../../dialog/readings/tokens.ts';
import type { Person, Roster } from '../ports.ts';
import type { AlertRecord } from '../records.ts';
import { mayHave, whoHearsOf } from './alert-chain.ts';

export type Meant =
  | { readonly kind: 'one'; readonly alert: AlertRecord; readonly words: string }
  /** None is hers. */
  | { readonly kind: 'none' }
  | { readonly kind: 'several'; readonly alerts: readonly AlertRecord[] };

/**
 * Takes  words: what follows the code, as it was typed. alerts: those with the code that are not closed, newest first.
 *        Two of one worker cannot be told apart by her number; the newest is meant, and once that is closed, the other.
 */
export function alertMeant(person: Person, words: string, alerts: readonly AlertRecord[], roster: Roster): Meant {
  const hers = alerts.filter((alert) => mayHave(person, alert, roster));
  const { ending, rest } = endingIn(words);
  const named = ending === null ? undefined : hers.find(({ worker }) => worker.endsWith(ending));
  if (named !== undefined) return { kind: 'one', alert: named, words: rest };
  const own = hers.filter((alert) => whoHearsOf(alert).includes(person.phone));
  const [first, ...others] = own.length > 0 ? own : hers;
  if (first === undefined) return { kind: 'none' };
  return others.every(({ worker }) => worker === first.worker) ? { kind: 'one', alert: first, words } : { kind: 'several', alerts: hers };
}

/** Three digits that stand before the other words. */
function endingIn(words: string): { readonly ending: string | null; readonly rest: string } {
  const [first = ''] = words.split(/[\s:,.-]/, 1);
  const ending = normalise(first);
  return /^\d{3}$/.test(ending) ? { ending, rest: words.slice(first.length).replace(/^[\s:,.-]+/, '') } : { ending: null, rest: words };
}
