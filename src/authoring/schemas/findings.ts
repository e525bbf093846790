// The schemas of findings.yaml and fields.yaml: what may be found or known, and what each stretch of a number line means.
// Read by read-findings.ts and read-fields.ts.

import { z } from 'zod';
import { from, over } from './limits.ts';
import { band, finding, limit, option, row } from './names.ts';
import { exactlyOneOf, number, oneOrMore, range, suggested, text, yesOrNo } from './shapes.ts';

const rows = oneOrMore(row).describe('Rows of the clinical reference that read it.').optional();

const firstBand = z.strictObject({
  id: text.describe('The name of the band, for conditions: "temperature is low".'),
  from: from.optional(),
  over: over.optional(),
  limit: limit.describe('It begins at this line of limits.yaml, which a switch can move.').optional(),
  routine: yesOrNo.describe('yes: values in this band are normal.').optional(),
  rows,
});
const laterBand = firstBand.meta({
  anyOf: [{ required: ['limit'] }, exactlyOneOf('from', 'over')],
  description: 'A band begins at "from", "over" or "limit" and reaches up to where the next begins.',
});
const bands = z
  .union([z.tuple([firstBand], laterBand).meta({ minItems: 0 }), firstBand])
  .describe('What each stretch of the number line means, from the lowest to the highest. The first begins at the lowest plausible value.');

const decimals = number.describe('Decimals that a value is given with; 0 when left out.').optional();
const sex = z.enum(['girl', 'boy']);

const ofNumbers = {
  unit: text.describe('The unit of the values.').optional(),
  range: range.optional(),
  decimals,
  'judged-rounded': yesOrNo.describe('yes: a reading is rounded to those decimals before it is judged.').optional(),
  readings: number.describe('How many readings may be kept, oldest first; 1 when left out.').optional(),
  holds: oneOrMore(band).describe('Bands that stand once they were read, whatever is read later.').optional(),
  'holds-until': z.record(band, band).describe('A band that stands until that other one is read.').optional(),
  bands: bands.optional(),
};
const ofChoices = {
  options: oneOrMore(option).describe('What can be answered; the first is the normal one.').optional(),
  'variant-options': oneOrMore(option).describe('Options that are normal, and named to the mother as normal.').optional(),
  'option-sex': z.record(z.string(), sex).describe('Options that only a girl or only a boy can have.').optional(),
};

const findings = z
  .strictObject({
    finding: text.describe('The name of the finding.'),
    group: text.describe('What it belongs to, such as history or breathing.'),
    kind: z
      .union([
        z.literal('sign').describe('Seen or not seen: the abnormal thing, the variant, or the thing that was not given.'),
        z.literal('choice').describe('One of its options; the first is the normal one.'),
        z.literal('number').describe('A number with decimals.'),
        z.literal('count').describe('A whole number.'),
      ])
      .describe('What its value is.'),
    about: z.unknown().describe('What is meant, in a sentence.').optional(),
    rows,
    at: z
      .union([
        z.literal('first-day').describe('At the first-day examination.'),
        z.literal('postnatal').describe('At a postnatal contact.'),
        z.literal('both').describe('At both.'),
      ])
      .describe('When it is looked for.'),
    danger: yesOrNo.describe('yes: it must be answered before a baby may be called well.').optional(),
    'instead-of': finding.describe('It answers for that other finding.').optional(),
    sex: sex.describe('Only this sex can have it.').optional(),
    unlisted: suggested('not-done')
      .describe('not-done: left out of a list in which all that is unlisted is normal, it was not done (tests, doses).')
      .optional(),
    variant: yesOrNo.describe('Of a sign. yes: seen, it is normal, and is named to the mother as normal.').optional(),
    ...ofChoices,
    ...ofNumbers,
  })
  .meta({
    if: { properties: { kind: { enum: ['number', 'count'] } }, required: ['kind'] },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema.
    then: { required: ['range', 'bands'] },
  });

export const findingsSchema = z.strictObject({
  findings: oneOrMore(findings).describe('What may be found on a baby, in the order in which it is looked for.').optional(),
});

const field = z.strictObject({
  field: text.describe('The name of the field.'),
  unit: text.describe('The unit of its values.'),
  range,
  decimals,
  bands: bands.optional(),
});

export const fieldsSchema = z.strictObject({
  fields: oneOrMore(field).describe('What is known of the baby besides the findings.').optional(),
  lines: z
    .strictObject({
      'dose-from-birth-weight-until-hours': number.describe('Until this age a dose is reckoned from the birth weight.'),
      'weight-stands-in-until-hours': number.describe('Until this age a weight stands in for an unknown birth weight.'),
      'at-birth-until-hours': number.describe('Until this age head and length are held against the standards for newborns.'),
      'preterm-before-weeks': number.describe('Born before so many weeks, a baby is preterm.'),
      'small-below-centile': number.describe('Below this centile a baby is small for its weeks.'),
      'large-above-centile': number.describe('Above this centile a baby is large for its weeks.'),
      'day-of-week': number.describe('The days beyond whole weeks that size is read at when they are not known.'),
    })
    .describe('Where a reference changes over, and from where on a size has a name.'),
});
