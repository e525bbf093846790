// The schema of a language's files: header, keywords, readings and messages. All files of a language are read as one
// (read-catalogue.ts), so any section may stand in any of them. That a message can be read as ICU MessageFormat, and that
// languages say the same, is for the reader and the checks.

import { z } from 'zod';
import { finding } from './names.ts';
import { oneOrMore, text, written } from './shapes.ts';

const language = z.strictObject({
  tag: written(/^\s*[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*\s*$/, 'Write the BCP-47 tag of the language, such as sw or pt-MZ.').describe(
    'The BCP-47 tag of the language, the same as the name of the folder.',
  ),
  name: text.describe('The name of the language in its own words.'),
  alphabet: z
    .union([
      z.literal('gsm-7').describe('Latin letters of cheap texts: 160 characters in one.'),
      z.literal('ucs-2').describe('All other letters: 70 characters in one text.'),
    ])
    .describe('The alphabet of its texts, which decides what they cost.'),
  draft: z
    .union([z.enum(['no', 'yes', 'false', 'true']), z.boolean()])
    .describe('yes: no clinician has reviewed it yet, and it is served only where the programme allows drafts.'),
  digits: z
    .union([written(/^\s*\p{Nd}{10}\s*$/u, 'Write the ten digits from zero to nine without spaces.'), z.number()])
    .describe('Its own digits from zero to nine, where it has any. Leave it out for 0123456789.')
    .optional(),
});

const words = oneOrMore(text, 1);
const keyword = oneOrMore(
  z.union([written(/^\s*(?!\p{Nd}\s*$)\S/u, 'Answers are digits. Choose a word, or a number of two digits such as 00.'), z.number()]),
  1,
);
const lists = (says: string) => z.record(z.string(), words).describe(says).optional();

const message: z.ZodType = z
  .union([
    z.string(),
    z.number(),
    z.boolean(),
    z.record(
      z.string(),
      z.lazy(() => message),
    ),
  ])
  .meta({
    id: 'message',
    description:
      'The words of a message, in quotes; "" where nothing is to be said. {weight} shows a value; {count, plural, one {...} other {...}} and {sex, select, girl {...} boy {...} other {...}} choose words. Or names with messages under them.',
  });

export const localeSchema = z.strictObject({
  language: language.describe('What the language is. It stands in one file of the language.').optional(),
  keywords: z
    .record(z.string(), keyword)
    .describe('Words that a worker texts as a command, by what they do. No word that phone companies keep for themselves, no single digit.')
    .optional(),
  readings: z
    .object({
      labels: lists('Labels before a value, anywhere in a message, such as T36.8.'),
      regions: lists('Body regions by name.'),
      signs: z.record(finding, words).describe('Signs that are sent as a word: a finding, finding=option, or finding=no.').optional(),
    })
    .catchall(words)
    .describe('Words that are understood in answers, by what they stand for.')
    .optional(),
  messages: z.record(z.string(), message).describe('What the phone says, by name. The base language has the same names.').optional(),
});
