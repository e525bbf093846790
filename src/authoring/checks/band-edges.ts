// The edges between bands that some condition tells apart: as they lie by default, and where each option of a switch puts
// them. An edge that every condition treats alike on both sides decides nothing. Next: decided-lines.ts.

import { bandsUnder } from '../../clinical/bands.ts';
import type { Condition } from '../../clinical/condition.ts';
import { parts } from '../../clinical/condition-parts.ts';
import type { Band, Line } from '../../clinical/number-line.ts';
import type { Protocol } from '../../clinical/protocol.ts';
import { type DecidedLine, decidedLine, numberIn } from './decided-line.ts';
import { type Deciding, readersOf } from './deciding-conditions.ts';
import { settingsOf } from './limit-settings.ts';

export function bandEdges(protocol: Protocol, deciding: readonly Deciding[]): DecidedLine[] {
  return [...bandsTold(deciding)].flatMap(([term, sets]) => {
    const finding = numberIn(protocol, term);
    if (finding === undefined) return [];
    const limits = finding.bands.flatMap((band) => protocol.limits.get(band.limit ?? '') ?? []);
    const classifications = readersOf([term], deciding);
    const lain = new Set<string>();
    return settingsOf(limits, protocol).flatMap(({ chosen, options }) =>
      edgesOf(bandsUnder(finding, protocol.limits, chosen)).flatMap(({ below, past, line }) => {
        const edge = JSON.stringify([below, past, line]);
        if (lain.has(edge) || !sets.some((set) => set.includes(below) !== set.includes(past))) return [];
        lain.add(edge);
        return decidedLine(protocol, { owner: term, term, line, options, classifications });
      }),
    );
  });
}

/** By term: the sets of bands that conditions ask for. */
function bandsTold(deciding: readonly Deciding[]): Map<string, (readonly string[])[]> {
  const told = new Map<string, (readonly string[])[]>();
  const note = (condition: Condition): void => {
    if (condition.kind === 'in-band' || condition.kind === 'readings-in-band')
      told.set(condition.term, [...(told.get(condition.term) ?? []), condition.bands]);
    if (condition.kind !== 'named') parts(condition).forEach(note);
  };
  for (const { condition } of deciding) note(condition);
  return told;
}

interface Edge {
  readonly below: string;
  readonly past: string;
  readonly line: Line;
}

/** Where two bands meet; a band whose line was moved past the next one's is empty, and meets nothing. */
function edgesOf(bands: readonly Band[]): Edge[] {
  const laid = bands.filter((band) => band.from < band.to || (band.from === band.to && band.closedTo && !band.openFrom));
  return laid.slice(1).map((band, i) => ({ below: laid[i]?.id ?? '', past: band.id, line: { value: band.from, over: band.openFrom } }));
}
