// Counts sent in the wrong order, breaths for heartbeats: neither is normal as it stands and both are when swapped; or one alone, where
// the other was to stand.

import type { Finding, FindingValue, NumberFinding } from '../../clinical/protocol.ts';

/** The swapped values to ask back about; empty when the order as sent is believable. */
export function swappedCounts(
  values: Readonly<Record<string, FindingValue>>,
  findings: ReadonlyMap<string, Finding>,
): Record<string, FindingValue> {
  const [one, two] = countsAmong(Object.keys(values), findings).flatMap(({ of, finding }) => {
    const value = values[of];
    return typeof value === 'number' ? [{ of, value, finding }] : [];
  });
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
  const counts = countsAmong(asked, findings);
  const [given, ...alsoGiven] = counts.filter(({ of }) => typeof values[of] === 'number');
  const [other] = counts.filter((one) => one !== given);
  if (given === undefined || other === undefined || alsoGiven.length > 0) return {};
  const value = Number(values[given.of]);
  return !isRoutine(value, given.finding) && isRoutine(value, other.finding) ? { [given.of]: value } : {};
}

/** Those that are counted over a minute. */
function countsAmong(names: readonly string[], findings: ReadonlyMap<string, Finding>): { of: string; finding: NumberFinding }[] {
  return names.flatMap((of) => {
    const finding = findings.get(of);
    return finding?.kind === 'count' && finding.unit === '/min' ? [{ of, finding }] : [];
  });
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
