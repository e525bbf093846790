// Reads follow-up.yaml: when the phone asks of its own accord, whom, and when it keeps quiet.
// What the times mean is src/on-call/follow-up.ts. Next: read-ladder.ts.

import type { FollowUp, QuietHours } from '../on-call/follow-up.ts';
import { readLadder, readUrgentLadder } from './read-ladder.ts';
import { readMinutes } from './read-minutes.ts';
import { complain, fieldsOf, needed, numberOf, type Place, type Report, textOf } from './yaml-source.ts';

/** Null when anything in it is wrong: half a follow-up would lose babies in silence. */
export function readFollowUp(top: Place, report: Report): FollowUp | null {
  let isWhole = true;
  const judge: Report = (diagnostic) => {
    if (diagnostic.severity === 'error') isWhole = false;
    report(diagnostic);
  };
  const whole: Part = { place: top, fields: fieldsOf(top, ['alerts', 'referrals', 'reminders'], judge) };
  const alerts = partOf(whole, 'alerts', ['at-once', 'taken-within', 'round-pause'], judge);
  const referrals = partOf(whole, 'referrals', referralFields, judge);
  const reminders = partOf(whole, 'reminders', ['grace', 'contact-when-age-not-known', 'quiet'], judge);
  const visit = partOf(referrals, 'refusal-visit', ['every', 'times'], judge);
  const grace = partOf(reminders, 'grace', ['recheck', 'contact'], judge);
  const outcome = fieldOf(referrals, 'outcome', judge);
  const followUp: FollowUp = {
    alertAskedAtOnce: atOnce(alerts, judge),
    alertTakenWithinMinutes: minutes(alerts, 'taken-within', judge),
    alertRoundPauseMinutes: minutes(alerts, 'round-pause', judge),
    hasLeft: laddersOf('left', referrals, judge),
    hasArrived: laddersOf('arrived', referrals, judge),
    travelMinutes: minutes(referrals, 'travel', judge),
    outcome: outcome === null ? [] : readLadder(outcome, judge),
    outcomeNotKnownAfterMinutes: minutes(referrals, 'outcome-not-known-after', judge),
    refusalVisit: { everyMinutes: minutes(visit, 'every', judge), times: times(visit, judge) },
    graceMinutes: { recheck: minutes(grace, 'recheck', judge), contact: minutes(grace, 'contact', judge) },
    contactWhenAgeNotKnownMinutes: minutes(reminders, 'contact-when-age-not-known', judge),
    quiet: readQuiet(partOf(reminders, 'quiet', ['from', 'to', 'except-within'], judge), judge),
  };
  return isWhole ? followUp : null;
}

const referralFields = ['left', 'travel', 'arrived', 'outcome', 'outcome-not-known-after', 'refusal-visit'];

interface Part {
  readonly place: Place;
  /** Null: it is missing, which has been said. */
  readonly fields: ReadonlyMap<string, Place> | null;
}

function partOf(parent: Part, name: string, allowed: readonly string[], report: Report): Part {
  const place = fieldOf(parent, name, report);
  return place === null ? { place: parent.place, fields: null } : { place, fields: fieldsOf(place, allowed, report) };
}

function fieldOf({ place, fields }: Part, name: string, report: Report): Place | null {
  return fields === null ? null : needed(fields, name, place, report);
}

function minutes(from: Part, name: string, report: Report): number {
  const place = fieldOf(from, name, report);
  return (place && readMinutes(place, 1, report)) ?? 0;
}

function laddersOf(name: string, referrals: Part, report: Report): FollowUp['hasLeft'] {
  const both = partOf(referrals, name, ['urgent', 'refer'], report);
  const [urgent, refer] = [fieldOf(both, 'urgent', report), fieldOf(both, 'refer', report)];
  return {
    urgent: urgent === null ? [] : readUrgentLadder(urgent, report),
    refer: refer === null ? [] : readLadder(refer, report),
  };
}

function times(visit: Part, report: Report): number {
  const why = 'The family that refused would not be seen.';
  return count(fieldOf(visit, 'times', report), { of: 'visits', why, mend: 'Write 7.' }, report);
}

/** Older files do not say it: one after another. */
function atOnce({ fields }: Part, report: Report): number {
  const place = fields?.get('at-once');
  return place === undefined ? 1 : count(place, { of: 'people', why: 'Nobody would be asked to take an alert.', mend: 'Write 1.' }, report);
}

function count(place: Place | null, said: { readonly of: string; readonly why: string; readonly mend: string }, report: Report): number {
  const read = place === null ? null : numberOf(place, report);
  if (place === null || read === null) return 0;
  if (Number.isInteger(read) && read > 0) return read;
  report(complain(place, place.range, 'follow-up/not-a-count', `"${read}" is not a number of ${said.of}.`, said.why, said.mend));
  return 0;
}

function readQuiet(quiet: Part, report: Report): QuietHours {
  return {
    fromMinute: readTimeOfDay(fieldOf(quiet, 'from', report), report),
    toMinute: readTimeOfDay(fieldOf(quiet, 'to', report), report),
    alwaysWithinMinutes: minutes(quiet, 'except-within', report),
  };
}

function readTimeOfDay(place: Place | null, report: Report): number {
  const text = place === null ? null : textOf(place, report);
  if (place === null || text === null) return 0;
  const [, hour, minute] = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(text) ?? [];
  if (hour !== undefined) return Number(hour) * 60 + Number(minute);
  const why = 'Reminders would come at night, or never.';
  report(complain(place, place.range, 'follow-up/not-a-time-of-day', `"${text}" is not a time of day.`, why, 'Write it like "21:00".'));
  return 0;
}
