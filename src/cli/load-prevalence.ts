// Reads how often each sign is met from a file of the programme. Names are checked against the flows, so that a misspelt sign is
// not counted as one that is never met.

import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import type { Published } from '../conversation/book.ts';
import type { Prevalence } from '../economy/manners.ts';

const share = z.coerce.number().min(0).max(1);
const values = z.record(z.string(), z.array(z.strictObject({ send: z.string(), share })));
const prevalence = z.strictObject({
  otherwise: share,
  signs: z.record(z.string(), share).default({}),
  values: values.default({}),
});

/** Errors: a file that is not there or is no such table, or a name that no flow asks for; each says what to do. */
export function loadPrevalence(file: string, published: Published): Prevalence {
  const read = prevalence.safeParse(parse(readFileSync(file, 'utf8'), { schema: 'failsafe' }));
  if (!read.success) {
    const faults = read.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`);
    throw new Error(`${file} is no table of shares. Write each share as a number from 0 to 1.\n${faults.join('\n')}`);
  }
  const steps = published.flows.flatMap((flow) => flow.steps);
  const marks = new Set(
    steps.flatMap((step) =>
      step.kind === 'mark' ? [...step.marks.map(({ id }) => id), ...(step.more === undefined ? [] : [`more:${step.more}`])] : [],
    ),
  );
  const fields = new Set(steps.flatMap((step) => (step.kind === 'read' ? step.fields.map(({ of }) => of) : [])));
  const unknown = [
    ...Object.keys(read.data.signs).filter((sign) => !marks.has(sign)),
    ...Object.keys(read.data.values).filter((field) => !fields.has(field)),
  ];
  if (unknown.length > 0)
    throw new Error(
      `${file} names what no flow asks for: ${unknown.join(', ')}. Write the names as the flows do, finding=option for a choice.`,
    );
  return read.data;
}
