// Reads what an export is governed by and no phone ever needs: the codes of other systems, and how few births hide a facility.
// A file with a fault stops the export and leaves the phones alone, so it is read here and not with what is published.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import type { FhirCodes } from '../register/export/fhir-codes.ts';

const coding = z.strictObject({
  code: z.string().regex(/^\d{1,6}-\d$/, 'is no LOINC code, such as 8867-4'),
  display: z.string().min(1),
  source: z.string().min(1),
});

const fhirCodes = z.strictObject({
  base: z.url(),
  ucum: z.record(z.string(), z.string().min(1)),
  loinc: z.record(
    z.string(),
    z.strictObject({ codings: z.array(coding).min(1), unit: z.string().min(1), category: z.enum(['vital-signs', 'exam', 'laboratory']) }),
  ),
});

const deIdentified = z.strictObject({ 'facility-needs-births': z.coerce.number().int().min(1) });

/** Errors: a fault of the file, with the place in it. */
export function loadFhirCodes(flows: string): FhirCodes {
  const { base, ucum, loinc } = read(join(flows, 'reference', 'fhir-codes.yaml'), fhirCodes);
  return { base, ucum: new Map(Object.entries(ucum)), loinc: new Map(Object.entries(loinc)) };
}

/** Errors: a fault of the file, with the place in it. */
export function loadFacilityNeedsBirths(flows: string): number {
  return read(join(flows, 'reference', 'de-identified.yaml'), deIdentified)['facility-needs-births'];
}

function read<T>(path: string, shape: z.ZodType<T>): T {
  // Every scalar is text, and typed above: the usual reading turns 012 into 10.
  const parsed = shape.safeParse(parse(readFileSync(path, 'utf8'), { schema: 'failsafe' }));
  if (parsed.success) return parsed.data;
  const faults = parsed.error.issues.map((issue) => `- ${issue.path.join(' > ')}: ${issue.message}`);
  throw new Error(`${path} cannot be used. Mend it, or put back the last version that worked.\n${faults.join('\n')}`);
}
