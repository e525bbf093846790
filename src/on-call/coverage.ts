// The hours in which nobody is on call, of a facility with all that stand above it. Next: rota.ts.

import { dutiesBetween, type Rota } from './rota.ts';

/** Epoch milliseconds; `until` is no longer part of it. */
export interface Span {
  readonly from: number;
  readonly until: number;
}

/** The parts of the span in which none of these rotas has anybody, in order. */
export function uncovered(rotas: readonly Rota[], span: Span): Span[] {
  const duties = rotas.flatMap((rota) => dutiesBetween(rota, span.from, span.until));
  const gaps: Span[] = [];
  let covered = span.from;
  for (const { begins, ends } of duties.sort((a, b) => a.begins - b.begins)) {
    if (begins > covered) gaps.push({ from: covered, until: begins });
    covered = Math.max(covered, ends);
  }
  if (covered < span.until) gaps.push({ from: covered, until: span.until });
  return gaps;
}
