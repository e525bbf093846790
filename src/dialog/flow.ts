// The shape of a flow: an ordered list of steps with guards, and no jumps. The question asked is the first step that is
// unanswered and whose guard holds. Flow files are read by src/authoring/read-flow.ts. Next: next-step.ts, gather.ts.

import type { Condition } from '../clinical/condition.ts';
import type { FindingValue } from '../clinical/protocol.ts';

/** What is asked about the baby besides its findings. */
export const babyFields = ['sex', 'born', 'gestation', 'birth-weight', 'weight', 'card'] as const;

/** What a guard may ask for that no question of a flow gives: computed, or of the worker. Looked up by lookup.ts. */
export const guardFields = ['age', 'gestation', 'weight-change', 'urgency', 'worker'] as const;

export const isGuardField = (term: string): boolean => (guardFields as readonly string[]).includes(term);

export type Guard =
  /** Holds when the condition does, over what has been answered so far. */
  | { readonly kind: 'condition'; readonly condition: Condition; readonly text: string }
  /** Holds while nothing is known of the finding or field. */
  | { readonly kind: 'unknown'; readonly of: string };

interface StepCommon {
  readonly id: string;
  /** All must hold. */
  readonly onlyIf: readonly Guard[];
  /** True: asked only when a mark of another step opens it. */
  readonly opened: boolean;
  /** True: the answer holds for a twin too. */
  readonly shared: boolean;
  /** Changes when what an answer to this step means changes; an answer under another seal is asked again. */
  readonly seal: string;
}

/** Values read from one message, in this order or by their labels. */
export interface ReadStep extends StepCommon {
  readonly kind: 'read';
  readonly fields: readonly ReadField[];
  /** Findings that are set when the worker says that the value cannot be had. */
  readonly notKnown: Readonly<Record<string, FindingValue>>;
}

export interface ReadField {
  /** A finding, or a field of the baby. */
  readonly of: string;
  readonly optional: boolean;
  /** Options offered, by digit from 1; empty for numbers and times. */
  readonly options: readonly string[];
}

/** One more reading of a finding that the interpretation still needs, such as a second count of breaths. */
export interface AgainStep extends StepCommon {
  readonly kind: 'again';
  readonly of: string;
  readonly notKnown: Readonly<Record<string, FindingValue>>;
}

/** Several signs of one body region in one message: 0 for none, else the digits of what is seen. */
export interface MarkStep extends StepCommon {
  readonly kind: 'mark';
  readonly marks: readonly Mark[];
  /** The step that shows the rest of the region, opened by 9. */
  readonly more?: string;
  /** Findings that a mark here may set but that no mark leaves unanswered: they have a question of their own. */
  readonly leavesOpen: readonly string[];
  /** Choices of which several marks may be made at once: the one listed last holds (yellow on face and body: body). */
  readonly furthest: readonly string[];
  /** Regions that are asked here in one, each with words of its own in a quick report; empty where the step is one region. */
  readonly regions: readonly string[];
}

export interface Mark {
  /** Stable name, kept in sessions: `grunting`, `chest-indrawing=severe`, `then:pus-spots`. */
  readonly id: string;
  /** What the mark sets; null when it only opens another step. */
  readonly sets: { readonly of: string; readonly value: FindingValue } | null;
  readonly opens?: string;
  /** Values that hold when the mark is not made. */
  readonly otherwise: Readonly<Record<string, FindingValue>>;
}

/** Says what was found. `urgent` stands first in a flow and comes up as soon as the baby is urgent. */
export interface ResultStep extends StepCommon {
  readonly kind: 'result';
  readonly of: 'urgent' | 'final';
  /** A step that the result offers beside going on, while that step's guard holds. */
  readonly offers?: string;
}

export type Step = ReadStep | AgainStep | MarkStep | ResultStep;

export interface Flow {
  readonly id: string;
  readonly steps: readonly Step[];
}

export const moreDigit = '9';

/** Ids of the steps that a mark of this one, or its 9, opens. */
export function opensOf(step: Step): string[] {
  if (step.kind !== 'mark') return [];
  return [...step.marks.flatMap(({ opens }) => opens ?? []), ...(step.more === undefined ? [] : [step.more])];
}

/** By what a quick report names what the step asks. */
export function regionsOf({ id, regions }: MarkStep): readonly string[] {
  return regions.length === 0 ? [id] : regions;
}

/** What its guards ask, but for whether something is unknown. */
export function guardConditions({ steps }: Flow): Condition[] {
  return steps.flatMap(({ onlyIf }) => onlyIf.flatMap((guard) => (guard.kind === 'condition' ? [guard.condition] : [])));
}
