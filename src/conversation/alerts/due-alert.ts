// An alert that nobody took in time goes to the next person; the worker hears each time whom to ring. After all were asked in
// vain there is a pause, and all are asked again, until somebody takes it or closes it. A step that is not the last one any more
// (a nurse passed it on meanwhile) has its own time limit, and this one is over. Next: src/on-call/asking.ts, alert-asks.ts.

import { nextAsk } from '../../on-call/asking.ts';
import type { WorkParts } from '../due-parts.ts';
import type { AlertRecord, DueWork, WorkAnswer } from '../records.ts';
import { askEntries, toWorker } from './alert-asks.ts';
import { chainOf, nameOf } from './alert-chain.ts';

const minute = 60_000;
const done: WorkAnswer = { entries: [], next: { kind: 'done' } };

export function answerNotTaken({ alert, body, times }: DueWork, parts: WorkParts): WorkAnswer {
  if (alert === null || alert.state !== 'open' || stepIn(body) !== alert.asked.length - 1) return done;
  const chain = chainOf(alert, parts.now, parts.roster);
  const { alertAskedAtOnce: atOnce } = parts.published.followUp;
  const next = nextAsk({ asked: alert.asked, chain: chain.length > 0 ? chain : [alert.nurse], atOnce, hasPaused: times > 0 });
  if (next.kind === 'ask') {
    const { who: to, beside } = next;
    const entries = askEntries(alert, { from: alert.nurse, to, beside, why: 'not-taken' }, parts.now, parts);
    return { entries, next: { kind: 'done' } };
  }
  return pause(alert, chain[0] ?? alert.nurse, parts);
}

/** All were asked in vain: the worker is told not to wait, and whom to ring meanwhile. */
function pause(alert: AlertRecord, first: string, parts: WorkParts): WorkAnswer {
  const key = `worker:${alert.key}:${alert.asked.length}:nobody`;
  const minutes = parts.published.followUp.alertRoundPauseMinutes;
  const values = { nurse: nameOf(first, parts.roster), phone: first, minutes };
  const told = toWorker(alert, key, 'alert.nobody-worker', values, parts.now, parts);
  return { entries: [told], next: { kind: 'again', at: parts.now + minutes * minute } };
}

function stepIn(body: unknown): unknown {
  return (body as { readonly step?: unknown } | null)?.step;
}
