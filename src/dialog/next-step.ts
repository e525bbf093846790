// Which question is next: the first step of the flow that is unanswered and whose guard holds. Nothing else decides.

import { holds } from '../clinical/condition.ts';
import { isOfThisLook } from './examination.ts';
import type { Flow, Guard, Step } from './flow.ts';
import { lookupOf, type Standing } from './lookup.ts';
import type { Answer, Examination } from './session.ts';

/** Always finds one: a flow ends with its final result, which no answer satisfies. */
export function nextStep(flow: Flow, examination: Examination, standing: Standing): Step {
  // Guards last: they are asked of few steps then, and cost the most.
  const next = flow.steps.find((step) => isOpen(step, examination, standing) && guardsHold(step, standing));
  if (next === undefined) throw new Error(`Flow "${flow.id}" has no step left to ask. End it with a step that has "result: final".`);
  return next;
}

/** Whether the step may be asked as far as no guard forbids it: no answer was given to it, and what opens it was marked. */
export function isOpen(step: Step, examination: Examination, standing: Standing): boolean {
  return (!step.opened || standing.gathered.opened.has(step.id)) && !isAnswered(step, examination, standing);
}

export function guardsHold(step: Step, standing: Standing): boolean {
  return step.onlyIf.every((guard) => guardHolds(guard, standing));
}

function guardHolds(guard: Guard, standing: Standing): boolean {
  const { gathered } = standing;
  if (guard.kind === 'unknown') return (gathered.known.get(guard.of) ?? null) === null;
  return holds(guard.condition, lookupOf(standing));
}

function isAnswered(step: Step, examination: Examination, standing: Standing): boolean {
  switch (step.kind) {
    case 'read':
      return step.fields.every((field) => field.optional || standing.gathered.answered.has(field.of));
    case 'mark':
      return hasAnswer(step, examination, ({ seal, marks, passed }) => seal === step.seal && (marks !== undefined || passed === true));
    case 'again': {
      const readings = standing.gathered.known.get(step.of);
      const hasReading = Array.isArray(readings) && readings.length > 0;
      return (
        !hasReading ||
        !standing.interpretation.missing.includes(step.of) ||
        hasAnswer(step, examination, ({ values }) => values?.[step.of] === null)
      );
    }
    case 'result':
      return step.of === 'urgent' && hasAnswer(step, examination, ({ passed }) => passed === true);
  }
}

/** Whether this look has given the step an answer that is enough. */
function hasAnswer({ id }: Step, examination: Examination, isEnough: (answer: Answer) => boolean): boolean {
  return examination.answers.some((answer) => answer.step === id && isOfThisLook(answer, examination) && isEnough(answer));
}
