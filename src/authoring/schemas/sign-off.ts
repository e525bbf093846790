// The schemas of sign-off.yaml and rows-without-rule.yaml: what a newborn lead decides, and rows that nothing carries.
// Read by read-sign-off.ts and read-rows-without-rule.ts.

import { z } from 'zod';
import { choice, limit, option, row } from './names.ts';
import { oneOrMore, text } from './shapes.ts';

const item = z.strictObject({
  item: text.describe('The number of the item.'),
  decide: text.describe('What is to be decided, and why it is open.'),
  limits: oneOrMore(limit).describe('Lines of limits.yaml, with what reads them.').optional(),
  switches: oneOrMore(choice).describe('Choices of switches.yaml, with what they change.').optional(),
  tables: oneOrMore(option).describe('Tables of bilirubin.yaml and feeds.yaml.').optional(),
  rows: oneOrMore(row).describe('Rows of the reference, with all that carries them.').optional(),
  proof: oneOrMore(z.enum(['from-memory', 'project']))
    .describe('Every row that is proved no better than this.')
    .optional(),
});

export const signOffSchema = z.strictObject({
  'sign-off': oneOrMore(item).describe("What a programme's newborn lead must decide or check before live use.").optional(),
});

const reason = z.strictObject({
  why: text.describe('Why no rule carries these rows.'),
  rows: oneOrMore(row).describe('The rows.'),
});

export const rowsWithoutRuleSchema = z.strictObject({
  'rows-without-rule': oneOrMore(reason).describe('Rows of the reference that nothing carries, and why that is right.').optional(),
});
