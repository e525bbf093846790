// The values that a step reads: findings and fields of the baby, `?` for one that may be left out, and the options offered.

import type { ReadField } from '../dialog/flow.ts';
import { nothingAsked } from './read-flow-marks.ts';
import { isKnownName, unknownFinding } from './read-flow-values.ts';
import type { Vocabulary } from './vocabulary.ts';
import { entriesOf, itemsOf, type Place, type Report, textOf, unknownName } from './yaml-source.ts';

export function readFields(body: Place, options: Place | undefined, vocabulary: Vocabulary, report: Report): ReadField[] {
  const offered = options === undefined ? new Map<string, Place>() : new Map(entriesOf(options, report).map((entry) => [entry.key, entry]));
  if (itemsOf(body).length === 0) report(nothingAsked(body));
  const fields = itemsOf(body).flatMap((item): ReadField[] => {
    const text = textOf(item, report);
    if (text === null) return [];
    const of = text.replace(/\?$/, '');
    if (!isKnownName(of, vocabulary)) {
      report(unknownFinding(item, of, vocabulary, 'What the worker sends would be thrown away.'));
      return [];
    }
    const finding = vocabulary.findings.get(of);
    const all = finding?.kind === 'choice' ? finding.options : of === 'sex' ? ['girl', 'boy', 'not-clear'] : [];
    const place = offered.get(of);
    const chosen = place === undefined ? all : itemsOf(place).flatMap((one) => readOption(one, all, of, report));
    return [{ of, optional: text.endsWith('?'), options: chosen }];
  });
  const read = fields.map((field) => field.of);
  for (const [of, place] of offered) {
    if (!read.includes(of))
      report(
        unknownName(
          place,
          place.keyRange,
          'flow/not-in-this-step',
          'value read in this step for',
          of,
          read,
          'The options would not be offered.',
        ),
      );
  }
  return fields;
}

function readOption(item: Place, all: readonly string[], of: string, report: Report): string[] {
  const option = textOf(item, report);
  if (option === null || all.includes(option)) return option === null ? [] : [option];
  report(
    unknownName(
      item,
      item.range,
      'flow/unknown-option',
      `option of ${of}`,
      option,
      all,
      'The worker would be offered what the protocol does not know.',
    ),
  );
  return [];
}
