// When each guarded step must be asked at the least (flows/reference/questions.yaml), signed off as the list of what must be asked is:
// a guard may be widened, and not be narrowed, for then some babies are never asked. Shown for every baby, not for examples: none
// can fulfil what is written there and not the guard. Next: can-hold.ts, must-ask.ts, path-asks.ts.

import type { Condition } from '../../clinical/condition.ts';
import type { Flow, Guard } from '../../dialog/flow.ts';
import { readCondition } from '../read-condition.ts';
import { flowVocabulary } from '../read-flow.ts';
import type { Vocabulary } from '../vocabulary.ts';
import { complain, entriesOf, fieldsOf, type Place, type Report, readYaml, type SourceFile, textsOf, unknownName } from '../yaml-source.ts';
import type { Search } from './can-hold.ts';
import { implies } from './implies.ts';

const why = 'Babies who were asked for it before would not be asked any more.';
const fix = 'Widen the guard again; or have the newborn lead sign off when it is asked, and write that here.';

export interface SignedOff {
  /** `<flow> <step>` of the guards that may hide a question. */
  readonly guarded: ReadonlySet<string>;
  readonly decideNothing: ReadonlySet<string>;
  readonly inNoFlow: ReadonlySet<string>;
}

/** Errors of that file's form, and one for each step that fewer babies are asked. */
export function checkAskedWhen(
  source: SourceFile,
  flows: readonly Flow[],
  vocabulary: Vocabulary,
  search: Search,
  report: Report,
): SignedOff {
  const top = readYaml(source, report);
  const fields = top === null ? new Map<string, Place>() : fieldsOf(top, ['asked-when', 'decide-nothing', 'in-no-flow'], report);
  const when = fields.get('asked-when');
  const words = flowVocabulary(vocabulary);
  const guarded = new Set<string>();
  for (const flow of when === undefined ? [] : entriesOf(when, report)) {
    for (const step of entriesOf(flow, report)) {
      guarded.add(`${flow.key} ${step.key}`);
      const condition = readCondition(step, words, report);
      const fault = condition === null ? null : faultOf({ flow, step, when: condition }, flows, search);
      if (fault !== null) report(fault);
    }
  }
  const namesIn = (list: string): ReadonlySet<string> => {
    const place = fields.get(list);
    return new Set(place === undefined ? [] : textsOf(place, report));
  };
  return { guarded, decideNothing: namesIn('decide-nothing'), inNoFlow: namesIn('in-no-flow') };
}

interface Listed {
  readonly flow: Place;
  readonly step: Place;
  readonly when: Condition;
}

function faultOf({ flow: { key }, step: place, when }: Listed, flows: readonly Flow[], search: Search) {
  const steps = flows.find(({ id }) => id === key)?.steps ?? [];
  const step = steps.find(({ id }) => id === place.key);
  if (step === undefined)
    return unknownName(
      place,
      place.keyRange,
      'must-ask/unknown-step',
      `step of "${key}"`,
      place.key,
      steps.map(({ id }) => id),
      why,
    );
  const missed = step.onlyIf
    .map(asCondition)
    .some((guard) => !implies(when, guard) && search.canHold({ kind: 'all', of: [when, { kind: 'not', of: guard }] }));
  if (!missed) return null;
  const what = `Step "${step.id}" of "${key}" is not asked of every baby of whom this is true.`;
  return complain(place, place.range, 'must-ask/asked-less', what, why, fix);
}

export function asCondition(guard: Guard): Condition {
  return guard.kind === 'condition' ? guard.condition : { kind: 'not', of: { kind: 'known', term: guard.of } };
}
