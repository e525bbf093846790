// The schemas of doses.yaml, feeds.yaml and contacts.yaml: what may be given, how much milk, and when the baby is seen again.
// Read by read-doses.ts.

import { z } from 'zod';
import { condition } from './condition.ts';
import { choice, finding, option, row } from './names.ts';
import { atLeastOneOf, number, oneOrMore, text, yesOrNo } from './shapes.ts';

const ceiling = z.strictObject({
  amount: number.describe('Never more than this, in the unit of the dose.'),
  'per-kg': number.describe('Never more than this for each kilogram.'),
});

const amount = z
  .strictObject({
    when: condition.describe('Whom this amount is for. The first amount that holds is the dose.'),
    amount: number.describe('The dose, in the unit named above.').optional(),
    'per-kg': number.describe('The dose for each kilogram.').optional(),
    'at-most': number.describe('Never more than this.').optional(),
    ceiling: ceiling.describe('Hard stop on what comes out: above either, nothing is shown.').optional(),
    vials: z
      .record(z.string(), number)
      .describe('Vials that it may be drawn from, and how much of the unit is in 1 ml of each.')
      .optional(),
    row: row.describe('The row of the clinical reference that says so.'),
  })
  .meta(atLeastOneOf('amount', 'per-kg'));

const dose = z.strictObject({
  drug: text.describe('The name of the drug.'),
  row: row.describe('The row of the clinical reference that says so.'),
  unit: text.describe('The unit of the amounts.'),
  times: text.describe('How often it is given.'),
  'needs-weight': yesOrNo.describe('yes: withheld where no weight of today is known.').optional(),
  when: condition.describe('Whom it is for.'),
  already: condition.describe('While this holds it was given too lately, and is withheld.').optional(),
  vial: finding.describe('The finding that says what is printed on the vial; without it no millilitres are shown.').optional(),
  amounts: oneOrMore(amount).describe('The amounts. A baby whom none fits is outside the table: the nurse decides.'),
});

export const dosesSchema = z.strictObject({
  doses: oneOrMore(dose).describe('Doses that a result may show, to workers whom the roster marks.').optional(),
});

const volume = z.strictObject({
  'from-grams': number.describe('The weight from which these volumes hold.'),
  'feeds-per-day': number.describe('Feeds in a day.'),
  'ml-per-kg-day': oneOrMore(number)
    .describe('Millilitres for each kilogram in a day: day 1 of life, day 2 and so on; the last holds for all later days.')
    .optional(),
  'ml-per-feed': oneOrMore(number)
    .describe('Millilitres in each feed: day 1 of life, day 2 and so on; the last holds for all later days.')
    .optional(),
  row: row.describe('The row of the clinical reference that says so.'),
});

export const feedsSchema = z.strictObject({
  switch: choice.describe('The switch that chooses the table.'),
  tables: oneOrMore(
    z.strictObject({
      table: option.describe('The option of the switch with which this table is used.'),
      volumes: oneOrMore(volume).describe('How much milk, from the heaviest babies on.'),
    }),
  ).describe('The tables that can be chosen.'),
});

const contact = z.strictObject({
  contact: text.describe('The name of the contact.'),
  'from-hours': number.describe('The age from which it is due, or the hours from now with "again-after".'),
  'to-hours': number.describe('It is due until this hour has passed.'),
  row: row.describe('The row of the clinical reference that says so.'),
  'again-after': yesOrNo.describe('yes: no fixed age, but so many hours from now, until "when" no longer holds.').optional(),
  when: condition.describe('Only for these babies.').optional(),
});

export const contactsSchema = z.strictObject({
  switch: choice.describe('The switch that chooses the schedule.'),
  schedules: oneOrMore(
    z.strictObject({
      schedule: option.describe('The option of the switch with which this schedule is used.'),
      contacts: oneOrMore(contact).describe('When a baby is seen again although well.'),
    }),
  ).describe('The schedules that can be chosen.'),
});
