// The schema of bilirubin.yaml: the lines that a bilirubin is held against, by age and risk. Read by read-bilirubin.ts.

import { z } from 'zod';
import { condition } from './condition.ts';
import { choice, option } from './names.ts';
import { number, oneOrMore } from './shapes.ts';

const line = z.union([number, z.literal('any-yellow').describe('Any visible yellow is over the line.')]);

const step = z.strictObject({
  'from-hours': number.describe('The age from which these lines hold.'),
  treatment: line.describe('From this bilirubin a baby without risk is treated.').optional(),
  'treatment-at-risk': line.describe('From this bilirubin a baby at risk is treated.').optional(),
  exchange: line.describe('From this bilirubin a baby without risk needs an exchange.').optional(),
  'exchange-at-risk': line.describe('From this bilirubin a baby at risk needs an exchange.').optional(),
});

const byWeeks = z.strictObject({
  'before-weeks': number.describe('For babies born before so many weeks.'),
  'per-week': number.describe('The exchange line is the weeks times this.'),
  'treatment-less': number.describe('The treatment line lies so much lower.'),
});

const table = z.strictObject({
  table: option.describe('The option of the switch with which this table is used.'),
  steps: oneOrMore(step).describe('The lines by age, from the youngest on.'),
  'by-weeks': byWeeks.describe('For babies born early the lower of the steps and this.').optional(),
});

export const bilirubinSchema = z.strictObject({
  switch: choice.describe('The switch that chooses the table.'),
  'at-risk': condition.describe('Who is held against the lines for babies at risk.'),
  yellow: condition.describe('What counts as visible yellow.'),
  tables: oneOrMore(table).describe('The tables that can be chosen.'),
});
