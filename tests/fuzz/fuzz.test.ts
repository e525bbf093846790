// A bounded share of what `npm run fuzz` tries: every target holds, most inputs of each get past its first gate, and some are accepted.
// What fuzzing itself promises is planted and seen: a throw, a wait, a leak. SEED draws others. Next: run-target.ts.

import { afterAll, describe, expect, it } from 'vitest';
import { processorSeconds } from '../bench/processor-time.ts';
import { heapMayGrowKilobytes } from './heap.ts';
import { runTarget } from './run-target.ts';
import { type Target, usualLimitMilliseconds } from './target.ts';
import { targets } from './targets/all.ts';

const seed = Number(process.env.SEED ?? 20_261_127);
const inputs = 20_000;
const shares = targets.reduce((sum, { share }) => sum + share, 0);

afterAll(async () => {
  for (const { close } of targets) await close?.();
});

describe('generated input', () => {
  it.each(targets.map((target) => [target.name, target] as const))('%s holds', async (_name, target) => {
    const least = target.name === 'files/protocol' ? 3 : 50;
    const fuzzed = await runTarget(target, seed, Math.max(least, Math.ceil((inputs * target.share) / shares)));
    expect(fuzzed.failure).toBeUndefined();
    expect(fuzzed.heapGrowthKilobytes).toBeLessThan(heapMayGrowKilobytes);
    expect(fuzzed.accepted).toBeGreaterThan(0);
    expect(fuzzed.refusedAtOnce).toBeLessThan(fuzzed.inputs * 0.75);
  });
});

const planted = (take: Target['take']): Target => ({
  name: 'planted',
  share: 1,
  limitMilliseconds: usualLimitMilliseconds,
  isList: true,
  draw: (chance) => Array.from({ length: 8 }, () => String(chance.whole(0, 99))),
  take,
});

/** Too long by the wall's clock and by processor time: on a busy machine the second falls behind the first. */
function takeLonger(): void {
  const [wall, processor] = [performance.now(), processorSeconds() * 1_000];
  const milliseconds = usualLimitMilliseconds + 40;
  while (performance.now() < wall + milliseconds || processorSeconds() * 1_000 < processor + milliseconds);
}

describe('fuzzing', () => {
  it('finds what throws, and makes it as small as it can be', async () => {
    const throws = planted((input) => {
      if (input.some((text) => text.includes('7'))) throw new Error('Seven.');
      return 'accepted';
    });
    const { failure } = await runTarget(throws, seed, 200);
    expect(failure?.input).toEqual(['7']);
    expect(failure?.why).toContain('Seven.');
  });

  it('finds what takes too long each time it is tried', async () => {
    const waits = planted((input) => {
      if (input.includes('42')) takeLonger();
      return 'accepted';
    });
    expect((await runTarget(waits, seed, 400)).failure?.why).toContain('the limit is 50 ms');
  });

  it('lets pass what took too long once', async () => {
    let waited = false;
    const waits = planted(() => {
      const until = performance.now() + (waited ? 0 : 3 * usualLimitMilliseconds);
      while (performance.now() < until) waited = true;
      return 'refused';
    });
    expect(await runTarget(waits, seed, 5)).toMatchObject({ inputs: 5, refused: 5, accepted: 0 });
  });

  it('sees a heap that grows', async () => {
    const kept: number[][] = []; // One more for each time that an input took too long on a busy machine and was tried again.
    const leaks = planted(() => {
      kept.push(Array.from({ length: 20_000 }, (_, at) => at + 0.5));
      return 'accepted';
    });
    expect((await runTarget(leaks, seed, 200)).heapGrowthKilobytes).toBeGreaterThan(heapMayGrowKilobytes);
    expect(kept.length).toBeGreaterThanOrEqual(200);
  });

  it('draws the same from the same seed', async () => {
    const drawn: string[] = [];
    const notes = planted((input) => {
      drawn.push(input.join());
      return 'accepted';
    });
    await runTarget(notes, 5, 40);
    await runTarget(notes, 5, 40);
    expect(drawn.slice(40)).toEqual(drawn.slice(0, 40));
  });
});
