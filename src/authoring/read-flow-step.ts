// One step of a flow file: what it asks, when, and what its answers may be. A step with `more:` becomes two.

import type { Guard, MarkStep, Step } from '../dialog/flow.ts';
import { readCondition } from './read-condition.ts';
import { readFields } from './read-flow-fields.ts';
import { readMarks } from './read-flow-marks.ts';
import { isKnownName, readNotKnown, unknownFinding } from './read-flow-values.ts';
import type { Vocabulary } from './vocabulary.ts';
import {
  complain,
  fieldsOf,
  isList,
  isMapping,
  itemsOf,
  needed,
  type Place,
  type Report,
  textOf,
  unknownName,
  wordOf,
} from './yaml-source.ts';

export interface DraftStep {
  readonly step: Step;
  readonly place: Place;
  /** Steps that its marks open, and where they are named. */
  readonly thens: readonly Place[];
  readonly behindMore: boolean;
}

const allowed = [
  'step',
  'only-if',
  'read',
  'mark',
  'again',
  'result',
  'more',
  'options',
  'not-known',
  'leaves-open',
  'furthest',
  'regions',
  'twins',
  'then',
] as const;
const kinds = ['read', 'mark', 'again', 'result'] as const;
/** What each kind of step may hold beside its name, its guard and its own list. */
const fitting: Readonly<Record<(typeof kinds)[number], readonly string[]>> = {
  read: ['options', 'not-known', 'twins'],
  mark: ['more', 'leaves-open', 'furthest', 'regions', 'twins'],
  again: ['not-known'],
  result: ['then'],
};

export function readStep(place: Place, vocabulary: Vocabulary, report: Report): DraftStep[] {
  const fields = fieldsOf(place, allowed, report);
  const named = needed(fields, 'step', place, report);
  const id = named === null ? null : textOf(named, report);
  if (id === null || named === null) return [];
  const kind = kinds.filter((one) => fields.has(one));
  const [only] = kind;
  if (only === undefined || kind.length > 1) {
    report(
      complain(
        place,
        named.range,
        'flow/step-kind',
        `Step "${id}" says ${kind.length === 0 ? 'nothing to do' : kind.join(' and ')}.`,
        'There would be nothing, or two things, to ask.',
        `Give it one of: ${kinds.join(', ')}.`,
      ),
    );
    return [];
  }
  checkFitting(only, fields, report);
  const common = {
    id,
    onlyIf: readGuards(fields.get('only-if'), vocabulary, report),
    opened: false,
    shared: readTwins(fields.get('twins'), report),
    seal: '',
  };
  const body = fields.get(only) as Place;
  switch (only) {
    case 'read':
      return [
        draft(
          {
            ...common,
            kind: 'read',
            fields: readFields(body, fields.get('options'), vocabulary, report),
            notKnown: readNotKnown(fields.get('not-known'), vocabulary, report),
          },
          named,
        ),
      ];
    case 'again':
      return readAgain(common, body, fields, named, vocabulary, report);
    case 'result': {
      const of = wordOf(body, ['urgent', 'final'], report);
      const then = fields.get('then');
      const opens = then === undefined ? null : textOf(then, report);
      if (of === null) return [];
      if (then === undefined || opens === null) return [draft({ ...common, kind: 'result', of }, named)];
      return [draft({ ...common, kind: 'result', of, offers: opens }, named, [{ ...then, key: opens }])];
    }
    case 'mark':
      return readMarkStep(common, body, fields, named, vocabulary, report);
  }
}

function checkFitting(kind: (typeof kinds)[number], fields: ReadonlyMap<string, Place>, report: Report): void {
  for (const [name, field] of fields) {
    if (['step', 'only-if', kind, ...fitting[kind]].includes(name)) continue;
    const home = kinds.find((one) => fitting[one].includes(name));
    report(
      complain(
        field,
        field.keyRange,
        'flow/not-for-this-step',
        `"${name}" means nothing in a step with "${kind}".`,
        'It would have no effect.',
        `Take it out${home === undefined ? '' : `, or put it in a step with "${home}"`}.`,
      ),
    );
  }
}

type Common = Pick<Step, 'id' | 'onlyIf' | 'opened' | 'shared' | 'seal'>;

function draft(step: Step, place: Place, thens: readonly Place[] = [], behindMore = false): DraftStep {
  return { step, place, thens, behindMore };
}

function readAgain(
  common: Common,
  body: Place,
  fields: ReadonlyMap<string, Place>,
  named: Place,
  vocabulary: Vocabulary,
  report: Report,
): DraftStep[] {
  const of = textOf(body, report);
  if (of === null) return [];
  const finding = vocabulary.findings.get(of);
  if (finding === undefined || !('readings' in finding) || finding.readings < 2) {
    const repeating = [...vocabulary.findings.values()].filter((one) => 'readings' in one && one.readings > 1).map((one) => one.id);
    report(
      unknownName(
        body,
        body.range,
        'flow/not-repeated',
        'finding with several readings',
        of,
        repeating,
        'The second reading would have no place to go.',
      ),
    );
    return [];
  }
  return [draft({ ...common, kind: 'again', of, notKnown: readNotKnown(fields.get('not-known'), vocabulary, report) }, named)];
}

function readMarkStep(
  common: Common,
  body: Place,
  fields: ReadonlyMap<string, Place>,
  named: Place,
  vocabulary: Vocabulary,
  report: Report,
): DraftStep[] {
  const more = fields.get('more');
  const moreId = `${common.id}-more`;
  const first = readMarks(body, more === undefined ? 9 : 8, vocabulary, report);
  const rest = more === undefined ? null : readMarks(more, 9, vocabulary, report);
  const marked = [...first.marks, ...(rest?.marks ?? [])].flatMap((mark) => mark.sets?.of ?? []);
  const namesIn = (list: string): string[] => readMarked(fields.get(list), marked, report);
  const lists = { leavesOpen: namesIn('leaves-open'), furthest: namesIn('furthest') };
  const regions = readRegions(fields.get('regions'), report);
  const rests = more === undefined ? {} : { more: moreId };
  const step: MarkStep = { ...common, kind: 'mark', marks: first.marks, ...lists, regions, ...rests };
  if (more === undefined || rest === null) return [draft(step, named, first.thens)];
  const restStep: MarkStep = { ...common, id: moreId, onlyIf: [], kind: 'mark', marks: rest.marks, ...lists, regions: [] };
  return [draft(step, named, first.thens), draft(restStep, more, rest.thens, true)];
}

/** Findings of this step's own marks. */
function readMarked(place: Place | undefined, marked: readonly string[], report: Report): string[] {
  if (place === undefined) return [];
  return itemsOf(place).flatMap((item) => {
    const of = textOf(item, report);
    if (of === null || marked.includes(of)) return of ?? [];
    report(
      unknownName(item, item.range, 'flow/not-in-this-step', 'mark in this step for', of, new Set(marked), 'It would have no effect.'),
    );
    return [];
  });
}

/** Whether there are words for them is checked with the wording. */
function readRegions(place: Place | undefined, report: Report): string[] {
  return place === undefined ? [] : itemsOf(place).flatMap((item) => textOf(item, report) ?? []);
}

function readTwins(place: Place | undefined, report: Report): boolean {
  return place !== undefined && wordOf(place, ['share'], report) !== null;
}

function readGuards(place: Place | undefined, vocabulary: Vocabulary, report: Report): Guard[] {
  if (place === undefined) return [];
  const text = isMapping(place) || isList(place) ? null : textOf(place, report);
  const unknown = /^unknown (\S+)$/.exec(text ?? '')?.[1];
  if (unknown === undefined) {
    const condition = readCondition(place, vocabulary, report);
    return condition === null ? [] : [{ kind: 'condition', condition, text: text ?? '' }];
  }
  if (isKnownName(unknown, vocabulary)) return [{ kind: 'unknown', of: unknown }];
  report(unknownFinding(place, unknown, vocabulary, 'The step would never be asked.'));
  return [];
}
