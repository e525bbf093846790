// The protocol that ships with pipit, read once for all tests that need it, with the growth tables.

import { loadForAssess } from '../../src/cli/assess.ts';
import type { Case, FindingValue, Protocol } from '../../src/clinical/protocol.ts';

export const flowsFolder = new URL('../../flows', import.meta.url).pathname;

const loaded = await loadForAssess(flowsFolder);
if (loaded.kind === 'unusable') throw new Error(`The protocol in flows/ cannot be used:\n${loaded.why}`);

export const defaultProtocol: Protocol = loaded.protocol;

/** A baby of 30 hours on whom everything not listed was looked for and is normal. */
export function wellBut(findings: Record<string, FindingValue>, fields: Partial<Case> = {}): Case {
  return {
    ageHours: 30,
    sex: 'girl',
    gestation: { weeks: 39, days: 3 },
    birthWeightGrams: 3200,
    weightGrams: null,
    unlisted: 'normal',
    findings,
    ...fields,
  };
}
