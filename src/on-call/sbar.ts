// What a nurse on call is told of a baby, in SBAR order: situation, background, assessment; what to do is in the code she
// answers with. Pure: names findings and values, speaks no language. The four parts: rows SBAR-01 to SBAR-04 of the reference,
// as far as they are known while the baby is still being examined.

import type { Because, Case, Classification, Interpretation } from '../clinical/protocol.ts';

export interface Handover {
  /** What made the baby urgent. */
  readonly situation: readonly Classification[];
  /** Weeks and birth weight, then what matters of the mother, the birth and the care given. */
  readonly background: readonly Because[];
  /** Measured and not among the reasons, normal or not; then the signs that are less than urgent. */
  readonly assessment: readonly Because[];
}

/** What is known of a finding's place in the examination. */
export interface Known {
  /** Only gathers signs which other classifications name. */
  readonly isBox: (classification: string) => boolean;
  readonly groupOf: (finding: string) => string | undefined;
}

/** Measures that a nurse wants to hear whatever they are, in her order. */
const vitalSigns = ['temperature', 'respiratory-rate', 'heart-rate', 'oxygen-saturation', 'glucose'] as const;
/** Groups of findings that are no sign of how the baby is now. */
const backgroundGroups: ReadonlySet<string> = new Set(['history', 'birth', 'care-given']);

/** Takes  news: the urgent classifications to tell of. */
export function handoverOf(aCase: Case, interpretation: Interpretation, news: readonly string[], known: Known): Handover {
  const { isBox, groupOf } = known;
  const urgent = interpretation.classifications.filter((one) => one.urgency === 'urgent' && news.includes(one.id));
  const own = urgent.filter((one) => !isBox(one.id));
  const situation = own.length > 0 ? own : urgent;
  const said = new Set(situation.flatMap((one) => one.because.map((because) => because.finding)));
  const measured = [
    ...vitalSigns.map((finding): Because => ({ finding, value: aCase.findings[finding] })),
    // On the first day it is the birth weight.
    { finding: 'weightGrams', value: aCase.weightGrams === aCase.birthWeightGrams ? null : aCase.weightGrams },
  ].filter(({ finding, value }) => value != null && !said.has(finding));
  const size = [
    { finding: 'gestation', value: aCase.gestation },
    { finding: 'birthWeightGrams', value: aCase.birthWeightGrams },
  ].filter(({ finding, value }) => value != null && !said.has(finding));
  for (const { finding } of [...measured, ...size]) said.add(finding);
  const also: Because[] = [];
  for (const because of interpretation.classifications.filter((one) => isLesser(one) && !isBox(one.id)).flatMap((one) => one.because)) {
    if (!said.has(because.finding)) also.push(because);
    said.add(because.finding);
  }
  const isBackground = ({ finding }: Because): boolean => backgroundGroups.has(groupOf(finding) ?? '');
  return {
    situation,
    background: [...size, ...also.filter(isBackground)],
    assessment: [...measured, ...also.filter((one) => !isBackground(one))],
  };
}

function isLesser({ urgency }: Classification): boolean {
  return urgency === 'refer' || urgency === 'treat';
}
