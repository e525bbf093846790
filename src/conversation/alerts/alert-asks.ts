// What goes out when somebody is asked to take an alert: the text to her, what the worker hears, and when her time is over.
// Keys are of the alert and the step, so that a time limit and a nurse who passes at the same instant write one step once.
// Next: due-alert.ts and pass-alert.ts, which say who is next.

import type { Case, Interpretation } from '../../clinical/protocol.ts';
import type { SayableValue } from '../../messages/catalogue.ts';
import { type FollowUpParts, recipient, textTo } from '../follow-up-parts.ts';
import type { Facility, Roster } from '../ports.ts';
import type { AlertEntry, AlertRecord, AskedEntry, DueEntry, Entry, TextEntry } from '../records.ts';
import { nameOf } from './alert-chain.ts';
import { alertText } from './alert-text.ts';

/** `body` of an alert. */
export interface AlertBody {
  readonly case: Case;
  readonly interpretation: Interpretation;
  readonly version: string;
}

const minute = 60_000;

interface Ask {
  readonly from: string;
  readonly to: string;
  /** Who is asked at the same time. */
  readonly beside: readonly string[];
  readonly why: 'not-taken' | 'passed';
}

/** The alert goes from one person to the next. */
export function askEntries(alert: AlertRecord, { from, to, beside, why }: Ask, now: number, parts: FollowUpParts): Entry[] {
  const step = alert.asked.length;
  const tried = [...new Set([...alert.asked, from])].filter((phone) => phone !== to && !beside.includes(phone));
  const names = { tried: nameOf(from, parts.roster), nurse: nameOf(to, parts.roster), phone: to };
  return [
    askedEntry(alert.key, { step, nurse: to, why }, now),
    askText(alert, { step, to, tried }, now, parts),
    ...besideEntries(alert, { beside, step: step + 1, tried }, now, parts),
    toWorker(alert, `worker:${alert.key}:${step}`, `alert.${why}-worker`, names, now, parts),
    takenLimit(alert, step + beside.length, now, parts),
  ];
}

export function askedEntry(alert: string, ask: Pick<AskedEntry, 'step' | 'nurse' | 'why'>, at: number): AskedEntry {
  return { kind: 'asked', key: `asked:${alert}:${ask.step}`, alert, ...ask, at };
}

type Told = Pick<AlertEntry, 'key' | 'baby' | 'code' | 'worker' | 'facility' | 'at' | 'body'>;

/** Those who are asked at the same time as another; the worker knows of the first of them. */
export function besideEntries(
  alert: Told,
  { beside, step: first, tried }: { readonly beside: readonly string[]; readonly step: number; readonly tried: readonly string[] },
  now: number,
  parts: FollowUpParts,
): Entry[] {
  return beside.flatMap((to, place): Entry[] => {
    const step = first + place;
    return [askedEntry(alert.key, { step, nurse: to, why: 'beside' }, now), askText(alert, { step, to, tried }, now, parts)];
  });
}

/** Tells one person all that is known of the baby, and who did not take it before her. */
export function askText(
  alert: Told,
  { step, to, tried }: { readonly step: number; readonly to: string; readonly tried: readonly string[] },
  now: number,
  parts: FollowUpParts,
): TextEntry {
  const { code, worker, at: noticedAt } = alert;
  const told = {
    code,
    worker,
    ...bodyOf(alert.body),
    isUpdate: false,
    noticedAt,
    tried: tried.map((phone) => nameOf(phone, parts.roster)),
  };
  const text = alertText(told, facilityOf(alert.facility, parts.roster), recipient(to, parts).language, parts);
  return { kind: 'text', key: `nurse:${alert.key}:${step}`, to, text, urgent: true, at: now, baby: alert.baby };
}

/** When the time of the one who was asked is over. */
export function takenLimit(
  alert: { readonly key: string; readonly baby: string },
  step: number,
  now: number,
  { published }: FollowUpParts,
): DueEntry {
  return {
    kind: 'due',
    key: `due:${alert.key}:${step}`,
    work: 'alert-not-taken',
    dueAt: now + published.followUp.alertTakenWithinMinutes * minute,
    baby: alert.baby,
    alert: alert.key,
    body: { step },
    at: now,
  };
}

/** A text about an alert to the worker who raised it. */
export function toWorker(
  { worker, code, baby }: Pick<AlertRecord, 'worker' | 'code' | 'baby'>,
  key: string,
  message: string,
  values: Readonly<Record<string, SayableValue>>,
  at: number,
  parts: Pick<FollowUpParts, 'roster' | 'speak'>,
): TextEntry {
  return textTo(recipient(worker, parts), { key, at, urgent: true, baby }, message, { code, ...values }, parts);
}

/** A facility that has left the roster is named by its id: its alerts go on. */
export function facilityOf(id: string, roster: Roster): Pick<Facility, 'name' | 'zone'> {
  return roster.facility(id) ?? { name: id, zone: 'UTC' };
}

/** All that is urgent in an alert's body. One that cannot be read is still an alert, with its reason unknown. */
function bodyOf(body: unknown): Pick<AlertBody, 'case' | 'interpretation'> & { readonly news: readonly string[] } {
  const { case: aCase, interpretation } = (body ?? {}) as Partial<AlertBody>;
  if (aCase?.findings === undefined || interpretation?.classifications === undefined)
    return { case: { findings: {} }, interpretation: nothingKnown, news: ['unreadable'] };
  return { case: aCase, interpretation, news: urgentIn(interpretation) };
}

const nothingKnown: Interpretation = { urgency: 'incomplete', classifications: [], missing: [], advice: [], computed: {} };

function urgentIn({ classifications }: Interpretation): string[] {
  return classifications.filter(({ urgency }) => urgency === 'urgent').map(({ id }) => id);
}
