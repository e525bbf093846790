// Values that a flow file gives to findings, each in the finding's own kind: true, an option, a number in its range.

import type { FindingValue } from '../clinical/protocol.ts';
import { babyFields } from '../dialog/flow.ts';
import type { Vocabulary } from './vocabulary.ts';
import { complain, entriesOf, type Place, type Report, textOf, unknownName } from './yaml-source.ts';

const lost = 'What the worker sends would be thrown away.';

/** `{ pustule-count: 0 }`: findings and the values that they are given. */
export function readValues(place: Place | undefined, vocabulary: Vocabulary, report: Report): Record<string, FindingValue> {
  const values: Record<string, FindingValue> = {};
  if (place === undefined) return values;
  for (const entry of entriesOf(place, report)) {
    const value = valueFor(entry, vocabulary, report);
    if (value !== undefined) values[entry.key] = value;
  }
  return values;
}

/** What is recorded of a value that cannot be had: never a number, which nobody could tell from a measured one. */
export function readNotKnown(place: Place | undefined, vocabulary: Vocabulary, report: Report): Record<string, FindingValue> {
  const values = readValues(place, vocabulary, report);
  const invented = place === undefined ? [] : entriesOf(place, () => {}).filter(({ key }) => typeof values[key] === 'number');
  for (const entry of invented) {
    report(
      complain(
        entry,
        entry.range,
        'flow/number-for-not-known',
        `"${entry.key}" would be recorded as ${String(values[entry.key])}, which nobody measured.`,
        'Nurse and register could not tell it from a measurement.',
        'Record a sign that says what is known, such as "mother-hot-not-measured: true".',
      ),
    );
  }
  return values;
}

/** The value written for a finding or field, in the finding's own kind; undefined and reported when it does not fit. */
export function valueFor(entry: Place, vocabulary: Vocabulary, report: Report): FindingValue | undefined {
  const text = textOf(entry, report);
  if (text === null) return undefined;
  const { key: of } = entry;
  const finding = vocabulary.findings.get(of);
  const options = finding?.kind === 'choice' ? finding.options : of === 'sex' ? ['girl', 'boy', 'not-clear'] : null;
  if (options !== null) {
    if (options.includes(text)) return text;
    report(unknownName(entry, entry.range, 'flow/unknown-option', `option of ${of}`, text, options, lost));
    return undefined;
  }
  if (finding === undefined) {
    report(unknownFinding({ ...entry, range: entry.keyRange }, of, vocabulary, lost));
    return undefined;
  }
  if (finding.kind === 'sign') {
    if (text === 'true' || text === 'false') return text === 'true';
    report(complain(entry, entry.range, 'flow/not-true-or-false', `"${text}" is neither true nor false.`, lost, 'Write true or false.'));
    return undefined;
  }
  const value = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  if ('low' in finding && value >= finding.low && value <= finding.high) return value;
  const range = 'low' in finding ? `${finding.low} to ${finding.high}` : '';
  report(complain(entry, entry.range, 'flow/out-of-range', `${text} is not a plausible "${of}".`, lost, `Give ${range}.`));
  return undefined;
}

export function unknownFinding(place: Place, of: string, vocabulary: Vocabulary, why: string) {
  return unknownName(place, place.range, 'flow/unknown-finding', 'finding', of, [...vocabulary.findings.keys(), ...babyFields], why);
}

/** A finding, or a field of the baby. */
export function isKnownName(of: string, vocabulary: Vocabulary): boolean {
  return vocabulary.findings.has(of) || (babyFields as readonly string[]).includes(of);
}
