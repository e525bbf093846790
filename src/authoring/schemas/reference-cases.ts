// The schemas of the safety floor: reference cases, and what each flow must ask. Read by read-reference-cases.ts, read-case.ts,
// read-expected.ts and checks/must-ask.ts. Ranges of values are those of findings.yaml and fields.yaml, and not said again here.

import { z } from 'zod';
import { choice, classification, finding, flow, option, row } from './names.ts';
import { duration, oneOrMore, text } from './shapes.ts';

const grams = z.number().nullable();

const value = z
  .union([z.boolean(), z.number(), z.string(), z.array(z.number()).min(1), z.null()])
  .describe(
    'Of a sign: true (seen), false (looked for, not there). One of the options; a number, or its readings, oldest first. null: not known.',
  );

const baby = z.strictObject({
  id: z.union([z.string(), z.number()]).nullable().describe('A name for the case, where it is sent by itself.').optional(),
  ageHours: z.number().nullable().describe('Age in hours.').optional(),
  sex: z.enum(['girl', 'boy', 'not-clear']).nullable().describe('The sex of the baby.').optional(),
  gestation: z
    .strictObject({
      weeks: z.number().multipleOf(1).describe('Whole weeks.'),
      days: z.number().multipleOf(1).nullable().describe('Days beyond the weeks, 0 to 6.').optional(),
    })
    .nullable()
    .describe('At how many weeks the baby was born.')
    .optional(),
  birthWeightGrams: grams.describe('Birth weight in grams.').optional(),
  weightGrams: grams.describe('Weight now, in grams.').optional(),
  findings: z.record(finding, value).describe('What was found, by the names of findings.yaml.').optional(),
  givenBefore: z
    .record(classification, z.number())
    .describe(
      'What earlier looks gave without a break, and how many hours ago first; only what rests on findings that were looked at again.',
    )
    .optional(),
  unlisted: z
    .union([
      z.literal('not-assessed').describe('Nobody looked. Also when nothing is said here.'),
      z.literal('normal').describe('It was looked for and is normal.'),
    ])
    .describe('What holds for findings that are not listed.')
    .optional(),
  switches: z.record(choice, z.string()).describe('What the programme chose; the first option where nothing is said.').optional(),
});

const urgency = [
  z.literal('urgent').describe('Refer now.'),
  z.literal('refer').describe('Needs a clinician, not tonight.'),
  z.literal('treat').describe('Care here and look again.'),
  z.literal('routine').describe('Normal; teach, and plan the next contact.'),
] as const;

const expected = z.strictObject({
  urgency: z
    .union([...urgency, z.literal('incomplete').describe('Not yet to be called well: something is missing.')])
    .describe('How urgent the baby is, at least.'),
  classifications: z
    .union([oneOrMore(classification), z.record(classification, z.union(urgency))])
    .describe('What must be among its classifications; "name: urgency" where its own urgency matters.')
    .optional(),
  not: oneOrMore(classification).describe('What must not stand beside them.').optional(),
  missing: oneOrMore(finding).describe('What must still be asked: findings, or ageHours.').optional(),
  recheck: duration.describe('The first classification is looked at again no later than this.').optional(),
  within: duration.describe('The first classification is seen by a clinician no later than this.').optional(),
});

export const referenceCasesSchema = z.strictObject({
  baby: baby.describe('What every baby of this file is, unless its case says otherwise.').optional(),
  cases: oneOrMore(
    z.strictObject({
      id: text.describe('The name of the case, used once in all files.'),
      title: text.describe('The case in plain words.'),
      source: text.describe('The book that the case is from, when it is published.').optional(),
      rows: oneOrMore(row).describe('Rows of the clinical reference that the expectation comes from.'),
      input: baby.describe('The baby.'),
      expected: expected.describe('What must be made of it.'),
    }),
  ).describe('The cases.'),
});

const asked = z.union([
  finding.describe('It is asked, whatever the answer.'),
  z.record(finding, oneOrMore(option)).describe('This answer, or these, can be given.'),
]);

export const mustAskSchema = z
  .record(flow, oneOrMore(asked).describe('What this flow must ask.'))
  .describe('What each flow must ask. To take a line out is a clinical decision; to add one needs only the question.');
