// Which question is next: the first step of the flow that is unanswered and whose guard holds. Nothing else decides.

import { holds } from '../clinical/condition.ts';
import { isOfThisLook } from './examination.ts';
import type { Flow, Guard, Step } from './flow.ts';
import { lookupOf, type Standing } from './lookup.ts';
import type { Answer, Examination } from './session.ts';

/** Always finds one: a flow ends with its final result, which no answer satisfies. */
export function nextStep(flow: Flow, examination: Examination, standing: Standing): Step {
  const next = flow.steps.find((step) => !isAnswered(step, examination, standing) && isAsked(step, standing));
  if (next === undefined) throw new Error(`Flow "${flow.id}" has no step left to ask. End it with a step that has "result: final".`);
  return next;
}

function isAsked(step: Step, standing: Standing): boolean {
  if (step.opened && !standing.gathered.opened.has(step.id)) return false;
  return guardsHold(step, standing);
}

export function guardsHold(step: Step, standing: Standing): boolean {
  return step.onlyIf.every((guard) => guardHolds(guard, standing));
}

function guardHolds(guard: Guard, standing: Standing): boolean {
  const { gathered } = standing;
  if (guard.kind === 'unknown') return (gathered.known.get(guard.of) ?? null) === null;
  return holds(guard.condition, lookupOf(standing));
}

export function isAnswered(step: Step, examination: Examination, { gathered, interpretation }: Standing): boolean {
  const hasAnswer = (isEnough: (answer: Answer) => boolean): boolean =>
    examination.answers.some((answer) => answer.step === step.id && isOfThisLook(answer, examination) && isEnough(answer));
  switch (step.kind) {
    case 'read':
      return step.fields.every((field) => field.optional || gathered.answered.has(field.of));
    case 'mark':
      return hasAnswer((answer) => answer.seal === step.seal && (answer.marks !== undefined || answer.passed === true));
    case 'again': {
      const readings = gathered.known.get(step.of);
      const hasReading = Array.isArray(readings) && readings.length > 0;
      const gaveUp = hasAnswer((answer) => answer.values?.[step.of] === null);
      return !hasReading || gaveUp || !interpretation.missing.includes(step.of);
    }
    case 'result':
      return step.of === 'urgent' && hasAnswer((answer) => answer.passed === true);
  }
}
