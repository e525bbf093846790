// Counts sent in the wrong order, breaths for heartbeats: neither is normal as it stands and both are when swapped; or one alone, where
// the other was to stand.

import type { Finding, FindingValue, NumberFinding } from '../../clinical/protocol.ts';

/** The swapped values to ask back about; empty when the order as sent is believable. */
export function swappedCounts(
  values: Readonly<Record<string, FindingValue>>,
  findings: ReadonlyMap<string, Finding>,
): Record<string, FindingValue> {
  const counts = Object.entries(values).flatMap(([of, value]) => {
    const finding = findings.get(of);
    return finding?.kind === 'count' && finding.unit === '/min' && typeof value === 'number' ? [{ of, value, finding }] : [];
  });
  const [one, two] = counts;
  if (one === undefined || two === undefined) return {};
  const asSent = isRoutine(one.value, one.finding) || isRoutine(two.value, two.finding);
  const swapped = isRoutine(two.value, one.finding) && isRoutine(one.value, two.finding);
  return !asSent && swapped ? { [one.of]: two.value, [two.of]: one.value } : {};
}

/**
 * One of two counts that were asked, and no number for the other: it is asked back where it is normal only as the other.
 *
 * Takes    asked: findings and fields.
 */
export function misplacedCount(
  values: Readonly<Record<string, FindingValue>>,
  asked: readonly string[],
  findings: ReadonlyMap<string, Finding>,
): Record<string, FindingValue> {
  const counts = asked.flatMap((of) => {
    const finding = findings.get(of);
    return finding?.kind === 'count' && finding.unit === '/min' ? [{ of, value: values[of], finding }] : [];
  });
  const [given, ...alsoGiven] = counts.filter(({ value }) => typeof value === 'number');
  const [other] = counts.filter((one) => one !== given);
  if (given === undefined || other === undefined || alsoGiven.length > 0) return {};
  const value = Number(given.value);
  return !isRoutine(value, given.finding) && isRoutine(value, other.finding) ? { [given.of]: value } : {};
}

/** True when the value lies in one of the finding's routine bands. */
export function isRoutine(value: number, finding: NumberFinding): boolean {
  return finding.bands.some((band) => band.routine && isInBand(value, band));
}

export function isInBand(value: number, band: NumberFinding['bands'][number]): boolean {
  const aboveFrom = band.openFrom ? value > band.from : value >= band.from;
  const belowTo = band.closedTo ? value <= band.to : value < band.to;
  return aboveFrom && belowTo;
}
