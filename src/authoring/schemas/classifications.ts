// The schemas of what findings mean: classifications by family, named conditions, needs and contradictions.
// Read by read-classifications.ts; what must hold is condition.ts.

import { z } from 'zod';
import { condition } from './condition.ts';
import { advice, finding, row } from './names.ts';
import { durationOrAge, oneOrMore, text, yesOrNo } from './shapes.ts';

const rows = oneOrMore(row).describe('Rows of the clinical reference that say so.').optional();
const recheck = durationOrAge.describe('When to look again: PT30M, PT12H, P2D; or at an age: "at 24 h".').optional();

const rule = z.union([
  z.strictObject({ urgent: condition.describe('Refer now when this holds.'), rows }),
  z.strictObject({
    refer: condition.describe('Needs a clinician, not tonight, when this holds.'),
    rows,
    within: durationOrAge.describe('By when a clinician sees the baby: PT12H, P2D.').optional(),
  }),
  z.strictObject({ treat: condition.describe('Care here and look again when this holds.'), rows, recheck }),
  z.strictObject({ routine: condition.describe('Normal; teach, and plan the next contact, when this holds.'), rows, recheck }),
]);

const classification = z.strictObject({
  classification: text.describe('The name of the classification. Its words stand in classifications.yaml of the locales.'),
  box: yesOrNo.describe('yes: it gathers signs that other classifications already name.').optional(),
  'given-to': z
    .union([
      z.literal('any-baby').describe('Also when nothing is said here.'),
      z.literal('routine-baby').describe('Only to a baby of whom nothing more urgent is found.'),
    ])
    .describe('To whom it is given.')
    .optional(),
  rows,
  unless: condition.describe('It is not given while this holds.').optional(),
  rules: oneOrMore(rule).describe('When it is given, and how urgent the baby then is. The most urgent rule that holds counts.'),
  raised: oneOrMore(rule).describe('Makes it more urgent where one of its rules already holds.').optional(),
  advice: oneOrMore(advice).describe('What to do. It is told in the order of advice.yaml.').optional(),
});

export const classificationsSchema = z
  .record(z.string(), oneOrMore(classification))
  .describe('Families of classifications, by name: "family back is given" asks for any of one.');

export const conditionsSchema = z.strictObject({
  conditions: z
    .record(z.string(), condition)
    .describe('Words that the rules use, each defined once. One may use those above it.')
    .optional(),
});

const need = z.strictObject({
  finding: finding.describe('The finding that is still missing.'),
  when: condition.describe('While this holds, the baby is not yet well.'),
});

export const needsSchema = z.strictObject({
  needs: oneOrMore(need).describe('What a half-met rule still waits for.').optional(),
});

const contradiction = z.strictObject({
  at: finding.describe('The finding that is pointed at, or the field weight.'),
  when: condition.describe('What cannot be true together.'),
  says: text.describe('What is contradicted, as the one who sent it is told.'),
  mend: text.describe('What to give or correct.'),
});

export const contradictionsSchema = z.strictObject({
  contradictions: oneOrMore(contradiction).describe('Answers that cannot both be true: the case is refused.').optional(),
});
