// The regions that one message names, as answers to the steps that ask them. A step that asks several in one is normal only when each
// was called normal, and what the message marks under any of its names holds: no word beside it takes back a sign.
// Next: readings/reported.ts.

import type { Sex } from '../clinical/protocol.ts';
import { type Flow, type MarkStep, opensOf, type Step } from './flow.ts';
import { bothMarked, readRegion } from './read-answer.ts';
import { sexes } from './read-field.ts';
import type { ReportedRegion } from './readings/reported.ts';
import { isWord, type Refusal, refusal, type Words } from './readings/words.ts';
import type { Position } from './standing.ts';
import { nothingTaken, type Taken } from './taken.ts';

export interface Region {
  readonly step: MarkStep;
  readonly taken: Taken;
}

/** Takes  own: what the rest of the message says to the step that it answers. */
export function takeRegions(
  reported: readonly ReportedRegion[],
  own: Taken,
  answered: Step,
  stepFor: (names: readonly string[]) => MarkStep | undefined,
  words: Words,
): Region[] {
  const byStep = new Map<MarkStep, ReportedRegion[]>();
  for (const one of reported) {
    const step = stepFor(one.names);
    if (step !== undefined) byStep.set(step, [...(byStep.get(step) ?? []), one]);
  }
  return [...byStep].flatMap(([step, said]): Region[] => {
    const marks = step.id === answered.id ? own.marks : undefined;
    const digits = said.filter((one) => !isNone(one, words)).map((one) => one.said);
    if (digits.length > 0) return [{ step, taken: bothMarked(step, marks ?? [], readRegion(step, digits, words)) }];
    if (marks !== undefined) return [];
    return [{ step, taken: step.regions.every((region) => isNamed(region, said)) ? { ...nothingTaken, marks: [] } : notAll(said) }];
  });
}

/** Of those that no question asks, such as the genitals of a baby whose sex nobody said. */
export function unplaced(
  reported: readonly ReportedRegion[],
  stepFor: (names: readonly string[]) => MarkStep | undefined,
): readonly Refusal[] {
  const nowhere = reported.filter(({ names }) => stepFor(names) === undefined);
  return nowhere.length === 0 ? [] : notAll(nowhere).refusals;
}

/** What is said of the others is not known: it is asked. */
function notAll(said: readonly ReportedRegion[]): Taken {
  return { ...nothingTaken, refusals: [refusal('left-over', { text: said.map(({ text }) => text).join(' ') })] };
}

const isNamed = (region: string, said: readonly ReportedRegion[]): boolean => said.some(({ names }) => names.includes(region));

const isNone = ({ said }: ReportedRegion, words: Words): boolean => /^0+$/.test(said) || isWord(words, 'none', said);

/** Whether this step was opened by a mark of that one, or by a mark of one that it opened. */
export function isOpenedBy(step: Step, opener: Step, flow: Flow): boolean {
  return step.opened && flow.steps.some((one) => opensOf(one).includes(step.id) && (one === opener || isOpenedBy(one, opener, flow)));
}

/** How the steps that ask one region are named from flow to flow: `skin`, `skin-contact`, `skin-now`. */
const regionVariants = ['', '-contact', '-now'] as const;

/**
 * The step of this flow that asks one of these regions.
 *
 * Takes    sex: of the baby; null: whichever it is; undefined: not known, so that what is asked of one sex alone is asked nowhere.
 */
export function regionStep(names: readonly string[], { flow }: Position, sex: Sex | null | undefined): MarkStep | undefined {
  const marking = flow.steps.filter((step) => step.kind === 'mark');
  const isOther = (name: string): boolean => sex !== null && sexes.some((one) => name === one && one !== sex);
  const ids = names.filter((name) => !isOther(name)).flatMap((name) => regionVariants.map((variant) => name + variant));
  const own = ids.flatMap((id) => marking.find((step) => step.id === id) ?? []);
  return own[0] ?? marking.find(({ regions }) => regions.some((region) => names.includes(region)));
}

export function sexKnown({ gathered }: Position): Sex | undefined {
  const known = gathered.known.get('sex');
  return sexes.find((one) => one === known);
}

/** The baby's sex as this message says it, by its digit or by a word anywhere. */
export function sexIn({ values }: Taken, pieces: readonly string[], words: Words): Sex | undefined {
  return sexes.find((one) => one === values.sex) ?? sexes.find((one) => pieces.some((piece) => isWord(words, one, piece)));
}
