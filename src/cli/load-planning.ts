// Reads what `pipit simulate` goes by where no flag says otherwise: assumptions, each with where it comes from, and figures that were
// measured, each with the command that measured it. Two files of the programme, flows/planning/.

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';

const number = z.coerce.number().positive();
const share = z.coerce.number().gt(0).lt(1);
const assumed = <T extends z.ZodType>(value: T) => z.strictObject({ value, source: z.string().min(1) });
const figure = z.strictObject({ value: number, how: z.string().min(1) });

const assumptions = z.strictObject({
  'peak-factor': assumed(z.coerce.number().min(1)),
  'nurse-busy-minutes': assumed(number),
  'service-level': assumed(share),
  'busiest-core': assumed(z.coerce.number().gt(0).max(1)),
  'examinations-per-phone': assumed(number),
});

const measured = z.strictObject({
  'turns-per-second': figure,
  'on-cores': figure,
  'redis-session-bytes': figure,
  'redis-reply-bytes': figure,
  'register-bytes-per-examination': figure,
  'texts-of-its-own-per-baby': figure,
  'segments-of-its-own-per-baby': figure,
});

export type Assumptions = z.infer<typeof assumptions>;
export type MeasuredFigures = z.infer<typeof measured>;

export interface Planning {
  readonly assumptions: Assumptions;
  readonly measured: MeasuredFigures;
}

/** Errors: a file that is not there or lacks a figure; each says what to do. */
export function loadPlanning(flows: string): Planning {
  const folder = join(flows, 'planning');
  return {
    assumptions: read(join(folder, 'assumptions.yaml'), assumptions, 'source'),
    measured: read(join(folder, 'measured.yaml'), measured, 'how'),
  };
}

function read<T>(file: string, shape: z.ZodType<T>, beside: string): T {
  if (!existsSync(file)) throw new Error(`${file} is not there. Copy the folder flows/planning that ships into your flows.`);
  const found = shape.safeParse(parse(readFileSync(file, 'utf8'), { schema: 'failsafe' }));
  if (found.success) return found.data;
  const faults = found.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`);
  throw new Error(`${file} cannot be used. Give each figure as { value: NUMBER, ${beside}: "..." }.\n${faults.join('\n')}`);
}
