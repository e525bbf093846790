// Reads what a reference case expects: how urgent the baby is, what it is and is not, by when, and what must still be asked.
// Next: read-reference-cases.ts (the case around it), checks/safety-floor.ts (whether it holds).

import { minutesOf } from '../clinical/duration.ts';
import { type Interpretation, type Protocol, type Urgency, urgencies } from '../clinical/protocol.ts';
import type { Range } from './diagnostic.ts';
import {
  complain,
  entriesOf,
  fieldsOf,
  isMapping,
  itemsOf,
  needed,
  type Place,
  type Report,
  textOf,
  unknownName,
  wordOf,
} from './yaml-source.ts';

export interface Expected {
  /** Of the baby; at least. */
  readonly urgency: Interpretation['urgency'];
  /** Among others. Urgency: of the classification, at least; null: however urgent. */
  readonly classifications: readonly { readonly id: string; readonly urgency: Urgency | null }[];
  /** Must not stand beside them. */
  readonly not: readonly string[];
  readonly missing: readonly string[];
  /** ISO 8601 durations of the classification named first; no later than this. */
  readonly recheck?: string;
  readonly within?: string;
}

/** The why of every diagnostic about a case. */
export const unguarded = 'A case that cannot be read guards nothing.';
const babyUrgencies = [...urgencies, 'incomplete'] as const;

/** Null, with a diagnostic, when it does not say how urgent the baby is. */
export function readExpected(place: Place, protocol: Protocol, report: Report): Expected | null {
  const fields = fieldsOf(place, ['urgency', 'classifications', 'not', 'missing', 'recheck', 'within'], report);
  const urgencyPlace = needed(fields, 'urgency', place, report);
  const urgency = urgencyPlace && wordOf(urgencyPlace, babyUrgencies, report);
  if (urgency === null) return null;
  const ids = new Set(protocol.classifications.map((rule) => rule.id));
  const [given, not, missing] = (['classifications', 'not', 'missing'] as const).map((name) => fields.get(name));
  const findings = new Set([...protocol.findingById.keys(), 'ageHours']);
  const times = (['recheck', 'within'] as const).flatMap((name) => {
    const time = fields.get(name);
    const iso = time && durationOf(time, report);
    return iso ? [[name, iso] as const] : [];
  });
  return {
    urgency,
    classifications: given ? readGiven(given, ids, report) : [],
    not: not ? knownNames(not, 'classification', ids, report) : [],
    missing: missing ? knownNames(missing, 'finding', findings, report) : [],
    ...Object.fromEntries(times),
  };
}

/** `[grunting, lethargy]`, or `{ grunting: urgent }` where its own urgency matters. */
function readGiven(place: Place, ids: ReadonlySet<string>, report: Report): Expected['classifications'] {
  if (!isMapping(place)) return knownNames(place, 'classification', ids, report).map((id) => ({ id, urgency: null }));
  return entriesOf(place, report).flatMap((entry) => {
    if (!isKnown(entry.key, entry, entry.keyRange, 'classification', ids, report)) return [];
    return { id: entry.key, urgency: wordOf(entry, urgencies, report) };
  });
}

/** Those of the names that there are; the others are reported. */
export function knownNames(place: Place, kind: string, known: ReadonlySet<string>, report: Report): string[] {
  return itemsOf(place).flatMap((item) => {
    const name = textOf(item, report);
    return name !== null && isKnown(name, item, item.range, kind, known, report) ? name : [];
  });
}

function isKnown(name: string, place: Place, range: Range, kind: string, known: ReadonlySet<string>, report: Report): boolean {
  if (known.has(name)) return true;
  report(unknownName(place, range, `floor/unknown-${kind}`, kind, name, known, unguarded));
  return false;
}

function durationOf(place: Place, report: Report): string | null {
  const text = textOf(place, report);
  if (text === null || minutesOf(text) > 0) return text;
  const what = `"${text}" is not a length of time.`;
  report(complain(place, place.range, 'floor/not-a-time', what, unguarded, 'Write PT30M, PT12H or P2D: minutes, hours or days.'));
  return null;
}
