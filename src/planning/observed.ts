// What a simulated clock observed of waiting: shares, and how far chance may have moved them. Waits that follow each other are alike, so
// the error is taken from whole batches of them. Pure. Next: desk.ts, rota-clock.ts.

export interface Share {
  readonly share: number;
  readonly standardError: number;
}

export interface Observed {
  /** Of those who came, who waited at all. */
  readonly waited: Share;
  /** Taken sooner than the limit. */
  readonly within: Share;
  /** Waits that were looked at. */
  readonly count: number;
}

const batches = 25;

/**
 * Takes  waits: in the order in which they came, at least as many as batches; those before the clock had settled left out.
 *        limit: >= 0, in the unit of the waits.
 */
export function observe(waits: readonly number[], limit: number): Observed {
  if (waits.length < batches) throw new RangeError(`${waits.length} waits tell nothing. Simulate at least ${batches}.`);
  return {
    waited: shareOf(waits, (wait) => wait > 0),
    within: shareOf(waits, (wait) => wait < limit || wait === 0),
    count: waits.length,
  };
}

function shareOf(waits: readonly number[], holds: (wait: number) => boolean): Share {
  const size = Math.floor(waits.length / batches);
  const shares = Array.from({ length: batches }, (_, batch) => {
    const those = waits.slice(batch * size, (batch + 1) * size);
    return those.filter(holds).length / those.length;
  });
  const mean = shares.reduce((sum, share) => sum + share, 0) / batches;
  const variance = shares.reduce((sum, share) => sum + (share - mean) ** 2, 0) / (batches - 1);
  return { share: waits.filter(holds).length / waits.length, standardError: Math.sqrt(variance / batches) };
}
