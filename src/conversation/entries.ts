// Facts of the dialog core become entries of the register: an examination as it was found with what falls due after it, an
// alert with the text that tells the nurse, news with what follows. Each keeps the key that the core gave it, and the same fact
// gives the same entries. Next: alert-asks.ts, schedule.ts, news-entries.ts.

import type { AlertFact, ExaminationFact, Fact } from '../dialog/facts.ts';
import { type AlertBody, askText, besideEntries, facilityOf, takenLimit } from './alerts/alert-asks.ts';
import { chainOf, keyTo, whoHearsOf } from './alerts/alert-chain.ts';
import { alertText } from './alerts/alert-text.ts';
import { type FollowUpParts, recipient } from './follow-up-parts.ts';
import { givenUpAfter } from './given-up.ts';
import { newsEntries } from './news-entries.ts';
import type { AlertEntry, AlertRecord, Entry, ExaminationEntry, TextEntry } from './records.ts';
import { followUpEntries } from './reminders/schedule.ts';

export interface EntryParts extends FollowUpParts {
  /** The alert of the baby that is not closed; null when there is none, or when the register could not be asked. */
  readonly openAlert: AlertRecord | null;
}

export function entriesOf(facts: readonly Fact[], parts: EntryParts): Entry[] {
  return facts.flatMap((fact) => entriesOfOne(fact, parts));
}

function entriesOfOne(fact: Fact, parts: EntryParts): Entry[] {
  switch (fact.kind) {
    case 'begun':
      return [{ ...fact, lookAt: fact.at + givenUpAfter }];
    case 'examination':
      return [examinationEntry(fact), ...followUpEntries(fact, parts)];
    case 'alert':
      return [...alertEntries(fact, parts), ...followUpEntries(fact, parts)];
    case 'referral-news':
    case 'baby-news':
      return newsEntries(fact, parts);
  }
}

/** True: the baby may have an alert already, and whoever has it is told rather than somebody new. */
export function mayJoinAlert(fact: Fact): fact is AlertFact {
  return fact.kind === 'alert' && fact.key !== `alert:${fact.baby}`;
}

function examinationEntry(fact: ExaminationFact): ExaminationEntry {
  const { key, baby, worker, facility, code, at, version, facts, examination, interpretation } = fact;
  const body = { examination, case: fact.case, interpretation };
  return {
    kind: 'examination',
    ...{ key, baby, worker, facility, code, at, version, facts, body },
    flow: examination.flow,
    urgency: interpretation.urgency,
  };
}

/**
 * News of a baby with an alert go to whoever has it, else to all who are asked now. Else the alert is raised. Should the one that
 * was found be closed in this same instant, the register raises a new one from this entry, and its time limit is there already; a limit
 * of an alert that was joined finds none of its key and is over.
 */
function alertEntries(fact: AlertFact, parts: EntryParts): Entry[] {
  const { key, baby, worker, facility, code, at } = fact;
  const { openAlert } = parts;
  const told = openAlert === null ? chainOf(fact, at, parts.roster) : whoHearsOf(openAlert);
  const [nurse = worker] = told;
  // No step of an alert that this entry may raise has a key like those of the others.
  const update = (to: string): TextEntry => updateText(fact, to, keyTo(to, nurse, `nurse:${key}:0`), parts);
  // Corrected, and no alert is known that could hear of it: the nurse is told, and nothing is raised.
  if (fact.news.length === 0 && openAlert === null) return [update(nurse)];
  const body: AlertBody = { case: fact.case, interpretation: fact.interpretation, version: fact.version };
  const entry: AlertEntry = { kind: 'alert', ...{ key, baby, worker, facility, code, at, nurse, body } };
  if (openAlert !== null) return [entry, ...told.map(update), takenLimit(entry, 0, at, parts)];
  const beside = told.slice(1, parts.published.followUp.alertAskedAtOnce);
  return [
    entry,
    askText(entry, { step: 0, to: nurse, tried: [] }, at, parts),
    ...besideEntries(entry, { beside, step: 1, tried: [] }, at, parts),
    takenLimit(entry, beside.length, at, parts),
  ];
}

function updateText(fact: AlertFact, to: string, key: string, parts: EntryParts): TextEntry {
  const told = { ...fact, isUpdate: true, noticedAt: fact.at, tried: [] };
  const text = alertText(told, facilityOf(fact.facility, parts.roster), recipient(to, parts).language, parts);
  return { kind: 'text', key, to, text, urgent: true, at: fact.at, baby: fact.baby };
}
