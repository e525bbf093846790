// All the numbers at which a protocol decides something: edges of bands, numbers written in rules, numbers in tables.
// Next: floor-coverage.ts, which asks for a reference case on both sides of each.

import type { Protocol } from '../../clinical/protocol.ts';
import { bandEdges } from './band-edges.ts';
import type { DecidedLine } from './decided-line.ts';
import { decidingConditions } from './deciding-conditions.ts';
import { ruleLines } from './rule-lines.ts';
import { tableLines } from './table-lines.ts';

/** Each once. A limit that is set to "never" lies nowhere, and is not among them. */
export function decidedLines(protocol: Protocol): DecidedLine[] {
  const deciding = decidingConditions(protocol);
  const found = [...bandEdges(protocol, deciding), ...ruleLines(protocol, deciding), ...tableLines(protocol, deciding)];
  const laid = found.filter(({ line }) => Number.isFinite(line.value));
  return [...new Map(laid.map((one) => [JSON.stringify({ ...one, step: null }), one])).values()];
}
