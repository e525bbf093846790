// What a nurse on call is told of a baby, in SBAR order: situation, background, assessment; what to do is in the code she
// answers with. Pure: names findings and values, speaks no language.

import type { Because, Case, Classification, Interpretation } from '../clinical/protocol.ts';

export interface Handover {
  /** What made the baby urgent. */
  readonly situation: readonly Classification[];
  /** Size, weeks, and what is less than urgent or comes from the history. */
  readonly background: readonly Because[];
  /** Measured and not among the reasons, normal or not. */
  readonly assessment: readonly Because[];
}

/** Measures that a nurse wants to hear whatever they are, in her order. */
const vitalSigns = ['temperature', 'respiratory-rate', 'heart-rate', 'oxygen-saturation', 'glucose'] as const;

/** Takes  news: the urgent classifications to tell of. */
export function handoverOf(aCase: Case, interpretation: Interpretation, news: readonly string[], isBox: (id: string) => boolean): Handover {
  const urgent = interpretation.classifications.filter((one) => one.urgency === 'urgent' && news.includes(one.id));
  const own = urgent.filter((one) => !isBox(one.id));
  const situation = own.length > 0 ? own : urgent;
  const said = new Set(situation.flatMap((one) => one.because.map((because) => because.finding)));
  const measured = vitalSigns.flatMap((finding): Because[] => {
    const value = aCase.findings[finding];
    return value === undefined || value === null || said.has(finding) ? [] : [{ finding, value }];
  });
  const lesser = interpretation.classifications.filter((one) => (one.urgency === 'refer' || one.urgency === 'treat') && !isBox(one.id));
  const size: Because[] = [
    ...(aCase.birthWeightGrams == null ? [] : [{ finding: 'birthWeightGrams', value: aCase.birthWeightGrams }]),
    ...(aCase.gestation == null ? [] : [{ finding: 'gestation', value: aCase.gestation }]),
  ].filter((because) => !said.has(because.finding));
  for (const { finding } of [...measured, ...size]) said.add(finding);
  const also: Because[] = [];
  for (const because of lesser.flatMap((one) => one.because)) {
    if (!said.has(because.finding)) also.push(because);
    said.add(because.finding);
  }
  return { situation, background: [...size, ...also], assessment: measured };
}
