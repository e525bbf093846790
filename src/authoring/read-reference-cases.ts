// Reads the reference cases (flows/reference-cases/*.yaml): one baby each, what must be made of it, and the rows that say so.
// A file may begin with "baby": what every case of it is unless it says otherwise. Next: read-expected.ts; whether the
// protocol still holds the cases is checks/safety-floor.ts, and which are lacking checks/floor-coverage.ts.

import type { Case, Protocol } from '../clinical/protocol.ts';
import { plainValue } from './plain-value.ts';
import { type CaseFault, readCase } from './read-case.ts';
import { type Expected, knownNames, readExpected, unguarded } from './read-expected.ts';
import {
  complain,
  fieldsOf,
  isMapping,
  itemsOf,
  needed,
  type Place,
  type Report,
  readYaml,
  type SourceFile,
  textOf,
} from './yaml-source.ts';

export interface ReferenceCase {
  readonly id: string;
  /** In plain words. */
  readonly title: string;
  /** Rows of the clinical reference that the expectation comes from. */
  readonly rows: readonly string[];
  /** The book that the case is from, when it is published. */
  readonly source?: string;
  readonly input: Case;
  readonly expected: Expected;
  readonly place: Place;
}

/** The cases in these files. One that cannot be read is reported where it stands, and left out. */
export function readReferenceCases(sources: readonly SourceFile[], protocol: Protocol, report: Report): ReferenceCase[] {
  const cases: ReferenceCase[] = [];
  const seen = new Map<string, Place>();
  for (const source of sources) {
    const top = readYaml(source, report);
    if (top === null) continue;
    const fields = fieldsOf(top, ['baby', 'cases'], report);
    const baby = plainValue(fields.get('baby')?.node ?? null);
    const list = needed(fields, 'cases', top, report);
    for (const item of list ? itemsOf(list) : []) {
      const one = readOne(item, baby, protocol, report);
      if (one === null) continue;
      const twin = seen.get(one.id);
      if (twin === undefined) cases.push(one);
      else report(twice(one, twin));
      seen.set(one.id, one.place);
    }
  }
  return cases;
}

function twice({ id, place }: ReferenceCase, twin: Place): ReturnType<typeof complain> {
  const what = `Two reference cases have the id "${id}".`;
  const related = [{ file: twin.file, range: twin.range, what: 'The other one is here.' }];
  return {
    ...complain(place, place.range, 'floor/case-twice', what, 'A report could mean either.', 'Give one of them another id.'),
    related,
  };
}

function readOne(item: Place, baby: unknown, protocol: Protocol, report: Report): ReferenceCase | null {
  const fields = fieldsOf(item, ['id', 'title', 'source', 'rows', 'input', 'expected'], report);
  const [id, title, rows, input, expected] = (['id', 'title', 'rows', 'input', 'expected'] as const).map((name) =>
    needed(fields, name, item, report),
  );
  const source = fields.get('source');
  if (!id || !title || !rows || !input || !expected) return null;
  const idText = textOf(id, report);
  const titleText = textOf(title, report);
  const said = readExpected(expected, protocol, report);
  const read = readCase(laidOver(baby, plainValue(input.node)), protocol);
  if (read.kind === 'faulty') for (const fault of read.faults) report(notReadable(input, fault));
  if (read.kind === 'faulty' || said === null || idText === null || titleText === null) return null;
  return {
    id: idText,
    title: titleText,
    rows: knownNames(rows, 'row', rowsOf(protocol), report),
    ...(source ? { source: textOf(source, report) ?? '' } : {}),
    input: read.case,
    expected: said,
    place: item,
  };
}

/** Those of rows.yaml, and those of the conflict register that the switches settle. */
function rowsOf({ rows, switches }: Protocol): ReadonlySet<string> {
  return new Set([...rows.keys(), ...[...switches.values()].map((one) => one.row)]);
}

/** Field by field: what the case says stands in place of what the file says of every baby. */
function laidOver(baby: unknown, own: unknown): unknown {
  return typeof own === 'object' && own !== null ? { ...(baby as object), ...own } : own;
}

/** At the field that is at fault, where the case itself says it. */
function notReadable(input: Place, { field, message }: CaseFault): ReturnType<typeof complain> {
  let place = input;
  for (const name of field.split('.')) {
    const inside = isMapping(place) ? fieldsOf(place, [name], () => {}).get(name) : undefined;
    if (inside === undefined) break;
    place = inside;
  }
  const [what = '', fix = ''] = message.split('; ');
  const range = what.startsWith('there is no') ? place.keyRange : place.range;
  return complain(place, range, 'floor/not-readable', `${field}: ${what}.`, unguarded, `${fix.charAt(0).toUpperCase()}${fix.slice(1)}.`);
}
