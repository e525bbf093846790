// What is said of the difference between two editions of the files: a kind, which is a message key, and the values that fill its
// places. No sentence stands here; the kinds are in the order of what they can do to a baby. Next: changes-between.ts.

import type { Case, Interpretation } from '../../clinical/protocol.ts';
import type { Flow } from '../../dialog/flow.ts';
import type { Catalogues } from '../../messages/catalogue.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import type { SourceFile } from '../yaml-source.ts';

/** A set of files, and what was read of them. */
export interface Edition {
  readonly sources: readonly SourceFile[];
  readonly flows: readonly Flow[];
  readonly catalogues: Catalogues;
  readonly cases: readonly ReferenceCase[];
  readonly interpret: (aCase: Case) => Interpretation;
}

/** Most consequential first: what became of babies, what is found, what is asked, what is given, what is said, what is kept on paper. */
export const kinds = [
  'babies-less-urgent',
  'babies-more-urgent',
  'babies-told-otherwise',
  'classification-removed',
  'rule-removed',
  'rule-less-urgent',
  'limit-moved',
  'limit-option-moved',
  'limit-removed',
  'band-moved',
  'band-removed',
  'switch-default-changed',
  'condition-changed',
  'condition-removed',
  'rule-changed',
  'rule-time-changed',
  'rule-more-urgent',
  'rule-added',
  'classification-added',
  'flow-removed',
  'step-removed',
  'mark-removed',
  'field-removed',
  'guard-added',
  'guard-changed',
  'guard-removed',
  'mark-moved',
  'field-moved',
  'step-kind-changed',
  'step-moved-before',
  'step-moved-after',
  'field-moved-before',
  'field-moved-after',
  'marks-reordered',
  'mark-changed',
  'field-now-optional',
  'field-now-needed',
  'asked-again',
  'flow-added',
  'step-added',
  'mark-added',
  'field-added',
  'dose-removed',
  'dose-amount-removed',
  'dose-changed',
  'dose-amount-added',
  'dose-added',
  'contact-removed',
  'contact-changed',
  'contact-added',
  'advice-removed',
  'advice-added',
  'switch-removed',
  'switch-added',
  'switch-option-removed',
  'switch-option-added',
  'limit-added',
  'band-added',
  'condition-added',
  'finding-removed',
  'finding-added',
  'case-removed',
  'setting-changed',
  'setting-removed',
  'setting-added',
  'entry-removed',
  'entry-added',
  'order-changed',
  'language-removed',
  'language-added',
  'keyword-removed',
  'keyword-added',
  'word-removed',
  'word-added',
  'language-setting-changed',
  'wording-removed',
  'wording-changed',
  'wording-added',
  'case-added',
] as const;
export type ChangeKind = (typeof kinds)[number];

export interface Change {
  readonly kind: ChangeKind;
  readonly values: Readonly<Record<string, string | number>>;
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** Which edition's file the line is of: what was taken out stands only in the earlier one. */
  readonly edition: 'before' | 'after';
}

/** Where something stands: a node of either edition. */
export interface Spot {
  readonly file: string;
  readonly line: number;
}

export function removed(kind: ChangeKind, values: Change['values'], { file, line }: Spot): Change {
  return { kind, values, file, line, edition: 'before' };
}

/** Also for what was added. */
export function changed(kind: ChangeKind, values: Change['values'], { file, line }: Spot): Change {
  return { kind, values, file, line, edition: 'after' };
}
