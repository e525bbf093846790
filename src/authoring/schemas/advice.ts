// The schemas of advice.yaml, rows.yaml and sources.yaml: what to do in the order to act, and where every row comes from.
// Read by read-advice.ts.

import { z } from 'zod';
import { condition } from './condition.ts';
import { advice, row } from './names.ts';
import { oneOrMore, text, written, yesOrNo } from './shapes.ts';

const entry = z.strictObject({
  advice: written(/^\s*advice\.[a-z0-9]+(-[a-z0-9]+)*\s*$/, 'Write "advice." and a name in small letters with hyphens.').describe(
    'The key of the advice, such as advice.keep-warm. Its words stand in advice.yaml of the locales.',
  ),
  rows: oneOrMore(row).describe('Rows of the clinical reference that say so.').optional(),
  when: condition
    .describe('Added whenever this holds, whatever was found. Two terms are known only here: urgency, and treat-count.')
    .optional(),
  silences: oneOrMore(advice).describe('Other advice that must not stand beside it.').optional(),
  'only-for': oneOrMore(z.enum(['urgent', 'refer', 'treat', 'routine']))
    .describe('Of a classification that lists it, said only where that is so urgent.')
    .optional(),
  authorised: yesOrNo.describe('yes: said only to workers whom the roster marks as authorised to give injections.').optional(),
});

export const adviceSchema = z.strictObject({
  advice: oneOrMore(entry).describe('What to do, in the order to act: each result lists what it needs of this, in this order.').optional(),
});

const proof = z
  .enum(['seen', 'from-memory', 'project'])
  .describe(
    'seen: read in a copy of the source, or in a page that quotes it. from-memory: not read again. project: our own choice, to be signed off.',
  );

export const rowsSchema = z.strictObject({
  rows: z
    .record(
      z.string(),
      z.strictObject({
        proof: oneOrMore(proof).describe('How well the row is proved.').optional(),
        source: text.describe('Where the row is from, with the codes of sources.yaml.'),
      }),
    )
    .describe('Every row of the clinical reference, by its number.')
    .optional(),
});

export const sourcesSchema = z.strictObject({
  sources: z
    .record(z.string(), text.describe('Title, body and year of the guideline.'))
    .describe('The guidelines behind the rows, by the code that rows.yaml cites.')
    .optional(),
});
