// Shapes that the schemas of all kinds of files share: texts, numbers, yes or no, times, and one thing or a list of them.
// A schema sees a file as YAML 1.2 has it, where 36.5 is a number and 012 another one; the readers see what was typed. So a text may
// be a number here, and a number may be quoted. Next: names.ts, condition.ts; which file has which schema is schema-for.ts.

import { z } from 'zod';

/** A text of this form. Remedy: what an editor says in place of the pattern. */
export function written(form: RegExp, remedy: string) {
  return z.string().regex(form).meta({ patternErrorMessage: remedy });
}

export const text = z
  .union([written(/\S/, 'Write a word or a sentence after the colon.'), z.number()])
  .meta({ id: 'text', description: 'A word or a sentence.' });

export const number = z
  .union([z.number(), written(/^\s*-?\d+(\.\d+)?\s*$/, 'Write digits with a point, such as 36.5.')])
  .meta({ id: 'number', description: 'Digits, with a point before decimals.' });

export const yesOrNo = z.enum(['yes', 'no']);

const forms = { time: 'P(?=.*\\d)(\\d+D)?(T(\\d+H)?(\\d+M)?)?', age: 'at \\d+ h' } as const;

export const duration = written(new RegExp(`^\\s*${forms.time}\\s*$`), 'Write PT30M, PT12H or P2D: minutes, hours or days.').meta({
  id: 'duration',
  description: 'A length of time: PT30M (30 minutes), PT12H (12 hours), P2D (2 days).',
});

export const durationOrAge = written(
  new RegExp(`^\\s*(${forms.time}|${forms.age})\\s*$`),
  'Write PT30M, PT12H or P2D; or "at 24 h" for an age.',
).meta({ id: 'duration-or-age', description: 'A length of time, such as PT30M, PT12H or P2D; or an age, such as "at 24 h".' });

export const range = written(
  /^\s*-?\d+(\.\d+)? to -?\d+(\.\d+)?\s*$/,
  'Write the lowest and the highest value, such as "25.0 to 43.0".',
).meta({
  id: 'range',
  description: 'The lowest and the highest plausible value: "25.0 to 43.0". What lies outside is asked again.',
});

/** A list; or the one thing that stands in its place. */
export function oneOrMore<T extends z.ZodType>(item: T, least = 0, most = Number.POSITIVE_INFINITY) {
  const list = z.array(item);
  const atLeast = least > 0 ? list.min(least) : list;
  return z.union([Number.isFinite(most) ? atLeast.max(most) : atLeast, item]);
}

/** Words that are offered where the reader takes any. */
export function suggested(...words: readonly [string, ...string[]]) {
  return z.union([z.enum(words), z.unknown()]);
}

/** What JSON Schema can say of a map and zod cannot: which of some names must be there. */
export const exactlyOneOf = (...names: readonly string[]) => ({ oneOf: names.map((name) => ({ required: [name] })) });
export const atLeastOneOf = (...names: readonly string[]) => ({ anyOf: names.map((name) => ({ required: [name] })) });
