// Reads advice.yaml, rows.yaml and sources.yaml: what to do in the order to act, and where every row comes from.

import { type Advice, type Proof, type RowSource, urgencies } from '../clinical/protocol.ts';
import { readCondition } from './read-condition.ts';
import type { Field, Vocabulary } from './vocabulary.ts';
import { complain, entriesOf, fieldsOf, itemsOf, needed, type Place, type Report, textOf, textsOf, wordOf, yesOf } from './yaml-source.ts';

/** Known only where the whole result is: how urgent it is, and how many classifications are "treat". */
const resultFields: readonly (readonly [string, Field])[] = [
  ['urgency', { kind: 'choice', options: ['urgent', 'refer', 'treat', 'routine', 'incomplete'] }],
  ['treat-count', { kind: 'number', units: { classifications: 1 } }],
];

export function readAdvice(top: Place, vocabulary: Vocabulary, report: Report): Advice[] {
  const list = fieldsOf(top, ['advice'], report).get('advice');
  const known = { ...vocabulary, fields: new Map([...vocabulary.fields, ...resultFields]) };
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['advice', 'rows', 'when', 'silences', 'only-for', 'authorised'], report);
    const keyPlace = needed(fields, 'advice', item, report);
    const key = keyPlace && textOf(keyPlace, report);
    const whenPlace = fields.get('when');
    const when = whenPlace && readCondition(whenPlace, known, report);
    if (!keyPlace || !key) return [];
    if (!/^advice\.[a-z0-9]+(-[a-z0-9]+)*$/.test(key)) {
      report(
        complain(
          keyPlace,
          keyPlace.range,
          'protocol/not-an-advice-key',
          `"${key}" is not the key of an advice.`,
          'Its words could not be found in any language.',
          'Write "advice." and a name in small letters with hyphens.',
        ),
      );
      return [];
    }
    const rows = fields.get('rows');
    const silences = fields.get('silences');
    const onlyForPlace = fields.get('only-for');
    const onlyFor = onlyForPlace ? itemsOf(onlyForPlace).flatMap((one) => wordOf(one, urgencies, report) ?? []) : urgencies;
    return [
      {
        key,
        rows: rows ? textsOf(rows, report) : [],
        silences: silences ? textsOf(silences, report) : [],
        authorised: yesOf(fields.get('authorised'), report),
        onlyFor,
        ...(when ? { when } : {}),
      },
    ];
  });
}

const proofs: readonly Proof[] = ['seen', 'from-memory', 'project'];

export function readRows(top: Place, report: Report): Map<string, RowSource> {
  const all = fieldsOf(top, ['rows'], report).get('rows');
  const rows = new Map<string, RowSource>();
  for (const entry of all ? entriesOf(all, report) : []) {
    const fields = fieldsOf(entry, ['proof', 'source'], report);
    const source = needed(fields, 'source', entry, report);
    const proof = fields.get('proof');
    const tags = proof ? itemsOf(proof).flatMap((tag) => wordOf(tag, proofs, report) ?? []) : [];
    rows.set(entry.key, { source: (source && textOf(source, report)) ?? '', proof: tags });
  }
  return rows;
}

export function readSources(top: Place, report: Report): Map<string, string> {
  const all = fieldsOf(top, ['sources'], report).get('sources');
  return new Map((all ? entriesOf(all, report) : []).map((entry) => [entry.key, textOf(entry, report) ?? '']));
}
