// The number line of a finding: which band a value lies in, and where the bands lie under the switches of a programme.
// Bands touch by construction: each reaches to where the next begins. Next: readings.ts, for findings that repeat.

import type { Band, Limit, Line, NumberLine } from './number-line.ts';

export type ChosenOption = (switchId: string) => string | undefined;

/** Where a limit lies when these options are chosen. */
export function lineOf(limit: Limit, chosen: ChosenOption): Line {
  return limit.moved.find((move) => chosen(move.switch) === move.option)?.line ?? limit.line;
}

export function isPast(value: number, line: Line): boolean {
  return line.over ? value > line.value : value >= line.value;
}

/**
 * The bands that begin at these lines, lowest first. A band whose line is not below the next one's is empty.
 *
 * Takes    starts: one for each band; the first begins at `low` whatever its line.
 */
export function layBands(
  starts: readonly { readonly band: Omit<Band, 'from' | 'to' | 'openFrom' | 'closedTo'>; readonly line: Line }[],
  low: number,
  high: number,
): Band[] {
  return starts.map(({ band, line }, i) => {
    const next = starts[i + 1]?.line;
    return {
      ...band,
      from: i === 0 ? low : line.value,
      openFrom: i > 0 && line.over,
      to: next?.value ?? high,
      closedTo: next === undefined || next.over,
    };
  });
}

/** The finding's bands where these options put them. */
export function bandsUnder(finding: NumberLine, limits: ReadonlyMap<string, Limit>, chosen: ChosenOption): readonly Band[] {
  if (finding.bands.every((band) => band.limit === undefined)) return finding.bands;
  const starts = finding.bands.map((band) => {
    const limit = band.limit === undefined ? undefined : limits.get(band.limit);
    return { band, line: limit === undefined ? { value: band.from, over: band.openFrom } : lineOf(limit, chosen) };
  });
  return layBands(starts, finding.low, finding.high);
}

/** The one band a value lies in; undefined outside the plausible range. */
export function bandOf<One extends Band>(value: number, bands: readonly One[]): One | undefined {
  for (const band of bands) {
    if ((band.openFrom ? value > band.from : value >= band.from) && (band.closedTo ? value <= band.to : value < band.to)) return band;
  }
  return undefined;
}
