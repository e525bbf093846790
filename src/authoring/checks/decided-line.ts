// One number at which a protocol decides something, and what a reference case must hold to speak to it.
// Where they are found: band-edges.ts, rule-lines.ts, table-lines.ts. Who asks for their cases: floor-coverage.ts.

import type { Line } from '../../clinical/number-line.ts';
import type { NumberFinding, Protocol } from '../../clinical/protocol.ts';

export interface DecidedLine {
  readonly term: string;
  readonly line: Line;
  /** The finding, field, condition or classification at which a missing case is reported. */
  readonly owner: string;
  /** Who decides by it: a case must expect one of them, or expect it not; empty: no classification does. */
  readonly classifications: readonly string[];
  /** Terms of which a case must hold one, for the line to matter to it; empty: any case. */
  readonly besideAny: readonly string[];
  /** Switches that must be set so, for the line to lie there. */
  readonly options: readonly ChosenOptions[];
  /** Hours between which the baby's age must lie, the second past the end; left out: any age. */
  readonly ages?: readonly [from: number, to: number];
  /** How close a case must stand: the last digit that the value is given with. */
  readonly step: number;
  /** True: the line is a value that can be given; a case must stand on it. */
  readonly isWritten: boolean;
}

export type ChosenOptions = readonly [switchId: string, options: readonly string[]];

/** How close a case must stand where the value is computed: in percent, g/kg/day, z, centiles, cm a week, points. */
const computedSteps: Readonly<Record<string, number>> = {
  'weight-change': 0.1,
  'weight-gain': 0.5,
  'weight-for-age': 0.05,
  'head-centile': 1,
  'head-growth': 0.1,
  'saturation-difference': 1,
  size: 1,
};

type Found = Pick<DecidedLine, 'term' | 'line' | 'owner'> &
  Partial<Pick<DecidedLine, 'classifications' | 'besideAny' | 'options' | 'ages'>>;

/** The line with what is the same for every case: how its value is written. */
export function decidedLine(protocol: Protocol, found: Found): DecidedLine {
  const measured = numberIn(protocol, found.term);
  const digit = measured === undefined ? (computedSteps[found.term] ?? 1) : 10 ** -measured.decimals;
  const isWhole = Math.abs(found.line.value / digit - Math.round(found.line.value / digit)) < 1e-6;
  return {
    classifications: [],
    besideAny: [],
    options: [],
    ...found,
    step: measured === undefined || isWhole ? digit : digit / 10,
    isWritten: measured !== undefined && isWhole,
  };
}

/** The finding or field of the case, when it is a number; what is computed is neither. */
export function numberIn(protocol: Protocol, term: string): NumberFinding | undefined {
  const finding = protocol.findingById.get(term);
  if (finding !== undefined) return finding.kind === 'number' || finding.kind === 'count' ? finding : undefined;
  return protocol.measures.get(term);
}
