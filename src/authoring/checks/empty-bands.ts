// Bands that no value can lie in, at the digits that a reading is given with. Bands touch by construction (clinical/bands.ts), so there
// is no gap and no overlap; what is left is a band that begins where the next one does. A switch may empty a band on purpose: one
// programme has no use for it.

import type { Band } from '../../clinical/number-line.ts';
import type { NumberFinding, Protocol } from '../../clinical/protocol.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { definitionsIn } from './definitions.ts';

/** Errors, at the finding or field. */
export function checkBandsAreMet(protocol: Protocol, sources: readonly SourceFile[], report: Report): void {
  const placeOf = definitionsIn(sources);
  for (const finding of [...protocol.findings, ...protocol.measures.values()]) {
    if (!('bands' in finding)) continue;
    const empty = finding.bands.find((band) => Number.isFinite(band.from) && isEmpty(band, finding));
    if (empty === undefined) continue;
    const place = placeOf(finding.id);
    const what = `No value of "${finding.id}" lies in its band "${empty.id}".`;
    const fix = `Let it begin below the next band, at ${finding.decimals} decimals and from ${finding.low} to ${finding.high}; or take it out.`;
    report(complain(place, place.range, 'protocol/band-never-met', what, 'A rule that waits for it would find no baby.', fix));
  }
}

/** The first value that can be written in it lies past its end. */
function isEmpty({ from, to, openFrom, closedTo }: Band, { decimals }: NumberFinding): boolean {
  const steps = (value: number): number => Number((value * 10 ** decimals).toPrecision(12));
  const first = openFrom ? Math.floor(steps(from)) + 1 : Math.ceil(steps(from));
  return closedTo ? first > steps(to) : first >= steps(to);
}
