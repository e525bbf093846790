// Reads classifications/*.yaml, conditions.yaml and needs.yaml: what findings mean, in the words of read-condition.ts.
// The families and ids are gathered first, because a rule may ask whether another classification is given.

import type { Condition } from '../clinical/condition.ts';
import { type ClassificationRule, type Contradiction, type Need, type Rule, type Urgency, urgencies } from '../clinical/protocol.ts';
import { readCondition } from './read-condition.ts';
import type { Vocabulary } from './vocabulary.ts';
import {
  complain,
  entriesOf,
  fieldsOf,
  itemsOf,
  needed,
  type Place,
  type Report,
  textOf,
  textsOf,
  unknownName,
  wordOf,
  yesOf,
} from './yaml-source.ts';

const why = 'What the rule looks for would not be told to anyone.';
const neverMet: Condition = { kind: 'any', of: [] };

/** Family -> ids of its classifications, in the order of the files. */
export function gatherFamilies(tops: readonly Place[], report: Report): Map<string, string[]> {
  const families = new Map<string, string[]>();
  const places = new Map<string, Place>();
  for (const family of tops.flatMap((top) => entriesOf(top, report))) {
    const ids = families.get(family.key) ?? [];
    for (const item of itemsOf(family)) {
      const place = entriesOf(item, report).find((entry) => entry.key === 'classification');
      const id = place && textOf(place, report);
      if (!place || !id) continue;
      const earlier = places.get(id);
      if (earlier !== undefined) {
        const twice = complain(
          place,
          place.range,
          'protocol/classification-twice',
          `"${id}" stands in two places.`,
          'Only one of the two would be given.',
          'Put their rules together.',
        );
        report({ ...twice, related: [{ file: earlier.file, range: earlier.range, what: 'the other one' }] });
      }
      places.set(id, place);
      ids.push(id);
    }
    families.set(family.key, ids);
  }
  return families;
}

/** Named conditions; each may use those above it. `vocabulary.conditions` grows as they are read. */
export function readConditions(top: Place, vocabulary: Vocabulary & { readonly conditions: Map<string, Condition> }, report: Report): void {
  const all = fieldsOf(top, ['conditions'], report).get('conditions');
  for (const entry of all ? entriesOf(all, report) : []) {
    if (vocabulary.findings.has(entry.key) || vocabulary.fields.has(entry.key) || vocabulary.conditions.has(entry.key)) {
      report(
        complain(
          entry,
          entry.keyRange,
          'condition/name-taken',
          `"${entry.key}" already means something.`,
          'A rule that names it could mean either.',
          'Give this condition another name.',
        ),
      );
      continue;
    }
    // One that cannot be read still has its name, so that the rules that use it are not all called wrong.
    vocabulary.conditions.set(entry.key, readCondition(entry, vocabulary, report) ?? neverMet);
  }
}

export function readClassifications(top: Place, vocabulary: Vocabulary, report: Report): ClassificationRule[] {
  return entriesOf(top, report).flatMap((family) =>
    itemsOf(family).flatMap((item) => readClassification(item, family.key, vocabulary, report) ?? []),
  );
}

const fieldNames = ['classification', 'box', 'given-to', 'rows', 'unless', 'rules', 'raised', 'advice'];

function readClassification(item: Place, family: string, vocabulary: Vocabulary, report: Report): ClassificationRule | null {
  const fields = fieldsOf(item, fieldNames, report);
  const idPlace = needed(fields, 'classification', item, report);
  const id = idPlace && textOf(idPlace, report);
  const rulesPlace = needed(fields, 'rules', item, report);
  if (!id || !rulesPlace) return null;
  const unlessPlace = fields.get('unless');
  const unless = unlessPlace && readCondition(unlessPlace, vocabulary, report);
  const givenTo = fields.get('given-to');
  const rules = (place: Place | undefined): Rule[] =>
    place ? itemsOf(place).flatMap((one) => readRule(one, vocabulary, report) ?? []) : [];
  return {
    id,
    family,
    box: yesOf(fields.get('box'), report),
    givenTo: (givenTo && wordOf(givenTo, ['any-baby', 'routine-baby'] as const, report)) ?? 'any-baby',
    rows: texts(fields.get('rows'), report),
    ...(unless ? { unless } : {}),
    rules: rules(rulesPlace),
    raised: rules(fields.get('raised')),
    advice: texts(fields.get('advice'), report),
  };
}

function readRule(item: Place, vocabulary: Vocabulary, report: Report): Rule | null {
  const fields = fieldsOf(item, [...urgencies, 'rows', 'recheck', 'within'], report);
  const given = urgencies.filter((urgency) => fields.has(urgency));
  const urgency = given[0];
  const place = urgency && fields.get(urgency);
  if (!urgency || !place || given.length > 1) {
    report(
      complain(
        item,
        item.range,
        'protocol/rule-without-urgency',
        'This rule does not say how urgent it is.',
        why,
        `Begin it with one of: ${urgencies.join(', ')}.`,
      ),
    );
    return null;
  }
  const when = readCondition(place, vocabulary, report);
  if (when === null) return null;
  return { when, urgency, rows: texts(fields.get('rows'), report), ...readTimes(fields, urgency, item, report) };
}

function readTimes(fields: ReadonlyMap<string, Place>, urgency: Urgency, item: Place, report: Report): Pick<Rule, 'recheck' | 'within'> {
  const recheckPlace = fields.get('recheck');
  const withinPlace = fields.get('within');
  const misplaced = urgency === 'refer' ? recheckPlace : withinPlace;
  if (misplaced !== undefined || (urgency === 'urgent' && recheckPlace !== undefined)) {
    const wrong = misplaced ?? recheckPlace ?? item;
    report(
      complain(
        wrong,
        wrong.keyRange,
        'protocol/wrong-time',
        `"${wrong.key}" does not go with "${urgency}".`,
        'The worker would be given a time that means something else.',
        'Write "within" with refer, "recheck" with treat and routine, and neither with urgent.',
      ),
    );
    return {};
  }
  const recheck = recheckPlace && readDuration(recheckPlace, report);
  const within = withinPlace && readDuration(withinPlace, report);
  return { ...(recheck ? { recheck } : {}), ...(typeof within === 'string' ? { within } : {}) };
}

function readDuration(place: Place, report: Report): string | { atAgeHours: number } | null {
  const text = textOf(place, report);
  if (text === null) return null;
  const atAge = /^at (\d+) h$/.exec(text);
  if (atAge !== null) return { atAgeHours: Number(atAge[1]) };
  if (/^P(?:\d+D)?(?:T(?:\d+H)?(?:\d+M)?)?$/.test(text) && /\d/.test(text)) return text;
  report(
    complain(
      place,
      place.range,
      'protocol/not-a-duration',
      `"${text}" is not a length of time.`,
      'The worker would not be told when to look again.',
      'Write PT30M, PT12H or P2D; or "at 24 h" for an age.',
    ),
  );
  return null;
}

export function readContradictions(top: Place, vocabulary: Vocabulary, report: Report): Contradiction[] {
  const list = fieldsOf(top, ['contradictions'], report).get('contradictions');
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['at', 'when', 'says', 'mend'], report);
    const text = (name: string): string | null => {
      const place = needed(fields, name, item, report);
      return place && textOf(place, report);
    };
    const at = text('at');
    const says = text('says');
    const mend = text('mend');
    const whenPlace = needed(fields, 'when', item, report);
    const when = whenPlace && readCondition(whenPlace, vocabulary, report);
    if (at === null || says === null || mend === null || !when) return [];
    const atPlace = fields.get('at') ?? item;
    if (!vocabulary.findings.has(at) && !vocabulary.fields.has(at))
      report(unknownName(atPlace, atPlace.range, 'protocol/unknown-finding', 'finding', at, vocabulary.findings.keys(), why));
    return [{ at, when, says, mend }];
  });
}

export function readNeeds(top: Place, vocabulary: Vocabulary, report: Report): Need[] {
  const list = fieldsOf(top, ['needs'], report).get('needs');
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['finding', 'when'], report);
    const findingPlace = needed(fields, 'finding', item, report);
    const whenPlace = needed(fields, 'when', item, report);
    const finding = findingPlace && textOf(findingPlace, report);
    const when = whenPlace && readCondition(whenPlace, vocabulary, report);
    if (!findingPlace || !finding || !when) return [];
    if (!vocabulary.findings.has(finding)) {
      report(
        unknownName(findingPlace, findingPlace.range, 'protocol/unknown-finding', 'finding', finding, vocabulary.findings.keys(), why),
      );
      return [];
    }
    return [{ finding, when }];
  });
}

function texts(place: Place | undefined, report: Report): string[] {
  return place ? textsOf(place, report) : [];
}
