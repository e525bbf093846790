// Who is on call at a facility over a span, as a list of stretches: it ends one where somebody begins or ends, and asks the rota who
// holds each. Pure. Next: src/on-call/rota.ts.

import type { RosterData } from '../../conversation/roster.ts';
import { dutiesBetween, onCallAt, rotaOf } from '../../on-call/rota.ts';

export interface Stretch {
  /** Epoch milliseconds; `until` is no longer part of it. */
  readonly from: number;
  readonly until: number;
  /** First one first; none: nobody of this facility. */
  readonly phones: readonly string[];
}

export function stretchesOf(
  facility: { readonly id: string; readonly zone: string },
  data: RosterData,
  from: number,
  until: number,
): Stretch[] {
  const rota = rotaOf(facility, data);
  const moments = dutiesBetween(rota, from, until).flatMap(({ begins, ends }) => [begins, ends]);
  const edges = [...new Set([from, ...moments.filter((at) => at > from && at < until), until])].sort((a, b) => a - b);
  const stretches: Stretch[] = [];
  for (const [index, begins] of edges.slice(0, -1).entries()) {
    const ends = edges[index + 1] ?? until;
    const phones = onCallAt(rota, begins);
    const last = stretches.at(-1);
    if (last !== undefined && last.phones.join() === phones.join()) stretches[stretches.length - 1] = { ...last, until: ends };
    else stretches.push({ from: begins, until: ends, phones });
  }
  return stretches;
}
