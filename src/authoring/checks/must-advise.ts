// What the worker must be told of each classification (flows/reference/must-advise.yaml). Written down beside the reference cases because
// those say what a baby is and not what is done: advice that is dropped changes no case. Next: must-ask.ts, which does it for questions.

import { listedAdvice } from '../../clinical/listed-advice.ts';
import { type ClassificationRule, type Protocol, type Urgency, urgencies } from '../../clinical/protocol.ts';
import {
  complain,
  entriesOf,
  fieldsOf,
  isMapping,
  itemsOf,
  type Place,
  type Report,
  readYaml,
  type SourceFile,
  textOf,
  unknownName,
} from '../yaml-source.ts';

const why = 'The worker would know what the baby has, and not be told to do this.';
const fix = 'Give the advice again; or have the newborn lead sign off that it is not given, and take it out here.';

/** Errors of that file's form, and one for each advice that is not given any more; a warning for a classification that is not listed. */
export function checkMustAdvise(source: SourceFile, protocol: Protocol, report: Report): void {
  const top = readYaml(source, report);
  if (top === null) return;
  const entries = entriesOf(top, report);
  const ids = protocol.classifications.map(({ id }) => id);
  for (const entry of entries) {
    const rule = protocol.classifications.find(({ id }) => id === entry.key);
    if (rule === undefined) {
      report(unknownName(entry, entry.keyRange, 'must-advise/unknown-classification', 'classification', entry.key, ids, why));
      continue;
    }
    for (const item of itemsOf(entry)) checkItem(item, rule, protocol, report);
  }
  const unlisted = ids.filter((id) => !entries.some(({ key }) => key === id));
  if (unlisted.length === 0) return;
  const what = `Nothing says what must be advised of: ${unlisted.join(', ')}.`;
  const unguarded = 'Advice of theirs could be dropped, and no check would say so.';
  const remedy = 'Add a line for each, such as "grunting: [give-oxygen]".';
  report({ ...complain(top, top.range, 'must-advise/not-listed', what, unguarded, remedy), severity: 'warning' });
}

/** `keep-warm`: however urgent it is. `{ refer: refer-for-review }`: where it is as urgent as that. */
function checkItem(item: Place, rule: ClassificationRule, protocol: Protocol, report: Report): void {
  if (!isMapping(item)) {
    const key = textOf(item, report);
    if (key !== null) for (const urgency of urgenciesOf(rule)) checkSaid(item, `advice.${key}`, urgency, rule, protocol, report);
    return;
  }
  const fields = fieldsOf(item, urgencies, report);
  for (const urgency of urgencies) {
    const place = fields.get(urgency);
    const key = place === undefined ? null : textOf(place, report);
    if (key !== null) checkSaid(item, `advice.${key}`, urgency, rule, protocol, report);
  }
}

/** How urgent it can be. */
function urgenciesOf({ rules, raised }: ClassificationRule): Urgency[] {
  return urgencies.filter((urgency) => [...rules, ...raised].some((one) => one.urgency === urgency));
}

function checkSaid(item: Place, key: string, urgency: Urgency, rule: ClassificationRule, protocol: Protocol, report: Report): void {
  if (listedAdvice(protocol, rule, urgency).some((place) => protocol.advice[place]?.key === key)) return;
  report(complain(item, item.range, 'must-advise/not-advised', `"${rule.id}" does not say "${key}" where it is ${urgency}.`, why, fix));
}
