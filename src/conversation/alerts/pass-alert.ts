// A nurse passes an alert on: the next person is asked at once, the worker hears whom to ring. One who took it can still pass
// it on, when her shift ends before the baby is handed over. Next: src/on-call/asking.ts, alert-asks.ts.

import { nextAsk } from '../../on-call/asking.ts';
import type { FollowUpParts } from '../follow-up-parts.ts';
import type { AlertRecord, Entry } from '../records.ts';
import { askEntries, askedEntry, takenLimit, toWorker } from './alert-asks.ts';
import { chainOf, nameOf } from './alert-chain.ts';

export type Passed =
  | { readonly kind: 'passed'; readonly to: string; readonly entries: readonly Entry[] }
  /** It was not with her: somebody else is asked now. */
  | { readonly kind: 'asked-already'; readonly who: string }
  | { readonly kind: 'nobody-else'; readonly entries: readonly Entry[] };

/** Takes  alert: open, or taken by her. `entries` go with the move of the alert to `open`. */
export function passOn(alert: AlertRecord, from: string, now: number, parts: FollowUpParts): Passed {
  if (alert.state === 'open' && alert.nurse !== from) return { kind: 'asked-already', who: alert.nurse };
  const next = nextAsk({ asked: alert.asked, chain: chainOf(alert, now, parts.roster), atOnce: 1, passing: from, hasPaused: false });
  if (next.kind === 'ask') {
    return { kind: 'passed', to: next.who, entries: askEntries(alert, { from, to: next.who, beside: [], why: 'passed' }, now, parts) };
  }
  return { kind: 'nobody-else', entries: stillOpen(alert, from, now, parts) };
}

/** She stays the one who is asked, for there is no other; the worker is told not to wait for her. */
function stillOpen(alert: AlertRecord, from: string, now: number, parts: FollowUpParts): Entry[] {
  const step = alert.asked.length;
  const told = toWorker(
    alert,
    `worker:${alert.key}:${step}:nobody-else`,
    'alert.nobody-else-worker',
    { tried: nameOf(from, parts.roster) },
    now,
    parts,
  );
  if (alert.state === 'open') return [told];
  return [askedEntry(alert.key, { step, nurse: from, why: 'passed' }, now), told, takenLimit(alert, step, now, parts)];
}
