// What was understood, read back in short: the baby's age after its birth time, so that a clock read wrongly is seen at once,
// and all of a quick report.

import type { Book } from './book.ts';
import type { Step } from './flow.ts';
import type { Gathered } from './gather.ts';
import type { Standing } from './lookup.ts';
import { babyPhrase, gestationText, phraseOf } from './phrases.ts';
import { type Say, say } from './reply.ts';
import type { Taken } from './taken.ts';

/** Fields that the phrase of the baby names, and others that are named after it in a quick report. */
const inPhrase: ReadonlySet<string> = new Set(['sex', 'born']);
const fieldPhrases: Readonly<Record<string, string>> = {
  gestation: 'values.gestation',
  'birth-weight': 'values.birthWeightGrams',
  weight: 'values.weightGrams',
};

export function readBack(
  taken: Taken,
  regions: readonly { readonly step: Step; readonly taken: Taken }[],
  { gathered }: Standing,
  book: Book,
): Say[] {
  const given = Object.keys(taken.values);
  const measured = given.filter((of) => book.findings.has(of));
  const isReport = regions.length > 0 || (measured.length > 0 && given.some((of) => inPhrase.has(of)));
  if (!isReport) return ageReadBack(taken, gathered);
  const what: Say[] = [
    ...(given.some((of) => inPhrase.has(of)) ? [babyPhrase(gathered.case)] : []),
    ...Object.entries(fieldPhrases).flatMap(([of, key]) => {
      if (!given.includes(of)) return [];
      const value = of === 'gestation' && gathered.case.gestation ? gestationText(gathered.case.gestation) : taken.values[of];
      return typeof value === 'number' || typeof value === 'string' ? [say(key, { value })] : [];
    }),
    ...measured.flatMap((finding) =>
      taken.values[finding] === null ? [] : (phraseOf({ finding, value: taken.values[finding] }, book) ?? []),
    ),
    ...regions.flatMap(({ step, taken: { marks } }) =>
      marks?.length === 0 ? [say('told.region-normal', { region: say(`ask.${step.id}.place`) })] : [],
    ),
  ];
  return what.length === 0 ? [] : [say('told.read-back', { what })];
}

export function ageReadBack({ values }: Taken, gathered: Gathered): Say[] {
  return typeof values.born === 'number' ? [say('told.read-back', { what: [babyPhrase(gathered.case)] })] : [];
}
