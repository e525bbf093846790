// A flow file becomes a Flow. Reports all that is wrong, in the author's words; whether to go on is for the caller.
// What a step may hold is in read-flow-step.ts, what marks may hold in read-flow-marks.ts. Checks over the whole flow
// are here: steps that are named, opened and ended as they must be.

import type { Interpretation } from '../clinical/protocol.ts';
import type { Flow, Step } from '../dialog/flow.ts';
import { type DraftStep, readStep } from './read-flow-step.ts';
import { sealOf } from './seal.ts';
import type { Vocabulary } from './vocabulary.ts';
import {
  complain,
  fieldsOf,
  itemsOf,
  needed,
  type Place,
  type Report,
  readYaml,
  type SourceFile,
  textOf,
  unknownName,
  yesOf,
} from './yaml-source.ts';

const urgencyOptions: readonly Interpretation['urgency'][] = ['urgent', 'refer', 'treat', 'routine', 'incomplete'];

/** A flow's guards may ask, beside all that a protocol's conditions may, how urgent the baby is so far, and whether the worker may give
 * injections. */
export function flowVocabulary(vocabulary: Vocabulary): Vocabulary {
  return {
    ...vocabulary,
    fields: new Map([
      ...vocabulary.fields,
      ['urgency', { kind: 'choice', options: urgencyOptions }],
      ['worker', { kind: 'choice', options: ['may-inject', 'may-not-inject'] }],
    ]),
  };
}

export function readFlow(source: SourceFile, vocabulary: Vocabulary, report: Report): Flow | null {
  const top = readYaml(source, report);
  if (top === null) return null;
  const fields = fieldsOf(top, ['flow', 'looks-again', 'steps'], report);
  const name = needed(fields, 'flow', top, report);
  const list = needed(fields, 'steps', top, report);
  const id = name === null ? null : textOf(name, report);
  if (id === null || list === null) return null;
  const drafts = itemsOf(list).flatMap((place) => readStep(place, flowVocabulary(vocabulary), report));
  checkNames(drafts, report);
  checkEnd(drafts, list, report);
  // A recheck adds to an examination in which every danger sign was asked.
  if (!yesOf(fields.get('looks-again'), report)) checkDangers(drafts, vocabulary, list, report);
  return { id, steps: finished(drafts) };
}

/** Which steps are opened by a mark, and the seal of each, are known only when all have been read. */
function finished(drafts: readonly DraftStep[]): Step[] {
  const opened = new Set(drafts.flatMap(({ step }) => opens(step)));
  const byId = new Map(drafts.map(({ step }) => [step.id, step]));
  return drafts.map(({ step }) => ({ ...step, opened: opened.has(step.id), seal: sealOf(step, byId) }));
}

function opens(step: Step): string[] {
  if (step.kind === 'result') return step.offers === undefined ? [] : [step.offers];
  if (step.kind !== 'mark') return [];
  const then = step.marks.flatMap((mark) => mark.opens ?? []);
  return step.more === undefined ? then : [...then, step.more];
}

function checkNames(drafts: readonly DraftStep[], report: Report): void {
  const seen = new Set<string>();
  const ids = drafts.map(({ step }) => step.id);
  for (const { step, place, thens } of drafts) {
    if (seen.has(step.id)) {
      report(
        complain(
          place,
          place.range,
          'flow/step-twice',
          `There are two steps named "${step.id}".`,
          'The second would count as answered with the first, and never be asked.',
          'Give one of them another name.',
        ),
      );
    }
    seen.add(step.id);
    for (const then of thens) {
      if (!ids.includes(then.key))
        report(unknownName(then, then.range, 'flow/unknown-step', 'step', then.key, ids, 'What the worker marked would lead nowhere.'));
    }
  }
}

function checkEnd(drafts: readonly DraftStep[], list: Place, report: Report): void {
  const last = drafts.at(-1)?.step;
  if (last?.kind === 'result' && last.of === 'final') return;
  report(
    complain(
      list,
      list.keyRange,
      'flow/no-end',
      'The last step does not give the final result.',
      'The worker would answer everything and be told nothing.',
      'End the list with "- step: result" and "result: final".',
    ),
  );
}

/** Every danger sign has a question that is always shown, never one behind digit 9. */
function checkDangers(drafts: readonly DraftStep[], vocabulary: Vocabulary, list: Place, report: Report): void {
  const asked = new Set(drafts.filter(({ behindMore }) => !behindMore).flatMap(({ step }) => findingsOf(step)));
  for (const finding of vocabulary.findings.values()) {
    if (!finding.danger || finding.insteadOf !== undefined || asked.has(finding.id)) continue;
    const what = `No step shows the danger sign "${finding.id}" in its first list.`;
    report(
      complain(
        list,
        list.keyRange,
        'flow/danger-not-asked',
        what,
        'It could be missed, and no baby could ever be called well.',
        `Add "${finding.id}" to a step, not under "more:".`,
      ),
    );
  }
}

function findingsOf(step: Step): string[] {
  switch (step.kind) {
    case 'read':
      return step.fields.map((field) => field.of);
    case 'mark':
      return step.marks.flatMap((mark) => [...(mark.sets === null ? [] : [mark.sets.of]), ...Object.keys(mark.otherwise)]);
    default:
      return [];
  }
}
