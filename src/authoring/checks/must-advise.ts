// What the worker must be told of each classification (flows/reference/must-advise.yaml). Written down beside the reference cases because
// those say what a baby is and not what is done: advice that is dropped changes no case. Next: must-ask.ts, which does it for questions.

import type { Protocol } from '../../clinical/protocol.ts';
import { complain, entriesOf, itemsOf, type Report, readYaml, type SourceFile, textOf, unknownName } from '../yaml-source.ts';

const why = 'The worker would know what the baby has, and not be told to do this.';
const fix = 'Give the advice again; or have the newborn lead sign off that it is not given, and take it out here.';

/** Errors of that file's form, and one for each advice that is not given any more; a warning for a classification that is not listed. */
export function checkMustAdvise(source: SourceFile, { classifications }: Protocol, report: Report): void {
  const top = readYaml(source, report);
  if (top === null) return;
  const entries = entriesOf(top, report);
  const ids = classifications.map(({ id }) => id);
  for (const entry of entries) {
    const given = classifications.find(({ id }) => id === entry.key)?.advice;
    if (given === undefined) {
      report(unknownName(entry, entry.keyRange, 'must-advise/unknown-classification', 'classification', entry.key, ids, why));
      continue;
    }
    for (const item of itemsOf(entry)) {
      const key = textOf(item, report);
      if (key === null || given.includes(`advice.${key}`)) continue;
      report(complain(item, item.range, 'must-advise/not-advised', `"${entry.key}" does not say "advice.${key}".`, why, fix));
    }
  }
  const unlisted = ids.filter((id) => !entries.some(({ key }) => key === id));
  if (unlisted.length === 0) return;
  const what = `Nothing says what must be advised of: ${unlisted.join(', ')}.`;
  const unguarded = 'Advice of theirs could be dropped, and no check would say so.';
  const remedy = 'Add a line for each, such as "grunting: [give-oxygen]".';
  report({ ...complain(top, top.range, 'must-advise/not-listed', what, unguarded, remedy), severity: 'warning' });
}
