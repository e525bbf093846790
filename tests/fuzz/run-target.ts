// Gives one target so many inputs, drawn from a seed, and says what came of them. The first that fails is made small and ends the run.
// Time: an input that took too long is taken three times more, and the least of its times counts, by processor time, because
// the machine collects and compiles and does other things besides. Next: run.ts.

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { processorSeconds } from '../bench/processor-time.ts';
import { chanceOf } from '../simulation/chance.ts';
import { reduce } from './reduce.ts';
import type { Input, Outcome, Target, Timed } from './target.ts';

export interface Fuzzed {
  readonly target: string;
  readonly inputs: number;
  readonly accepted: number;
  readonly refused: number;
  readonly refusedAtOnce: number;
  /** Wall time of the whole target. */
  readonly seconds: number;
  readonly longestMilliseconds: number;
  readonly limitMilliseconds: number;
  /** Kilobytes by which the heap is larger at the end than after the first tenth, each time after collecting. */
  readonly heapGrowthKilobytes: number;
  readonly failure?: { readonly why: string; readonly input: Input; readonly number: number };
}

const retries = 3;

export async function runTarget(target: Target, seed: number, inputs: number): Promise<Fuzzed> {
  const chance = chanceOf(seed);
  const outcomes: Record<Outcome, number> = { accepted: 0, refused: 0, 'refused-at-once': 0 };
  const began = performance.now();
  let [taken, longest, draws] = [0, 0, 0];
  let heapAtFirst: number | undefined;
  const outcome = (failure?: Fuzzed['failure']): Fuzzed => ({
    target: target.name,
    inputs: taken,
    accepted: outcomes.accepted,
    refused: outcomes.refused,
    refusedAtOnce: outcomes['refused-at-once'],
    seconds: Math.round((performance.now() - began) / 1000),
    longestMilliseconds: Math.round(longest),
    limitMilliseconds: target.limitMilliseconds,
    heapGrowthKilobytes: heapAtFirst === undefined ? 0 : Math.round((heapAfterCollecting() - heapAtFirst) / 1024),
    ...(failure === undefined ? {} : { failure }),
  });
  while (taken < inputs) {
    const input = target.draw(chance);
    draws += 1;
    const tried = await attempt(target, input);
    if (tried.kind === 'failed') {
      const least = await reduce(input, target.isList === true, async (one) => {
        const again = await attempt(target, one);
        return again.kind === 'failed' && again.sort === tried.sort;
      });
      const again = await attempt(target, least);
      return outcome({ why: again.kind === 'failed' ? again.why : tried.why, input: least, number: draws });
    }
    const count = target.count?.(input) ?? 1;
    taken += count;
    outcomes[tried.outcome] += count;
    longest = Math.max(longest, tried.milliseconds);
    if (heapAtFirst === undefined && taken >= inputs / 10) heapAtFirst = heapAfterCollecting();
  }
  return outcome();
}

type Attempt =
  | { readonly kind: 'held'; readonly outcome: Outcome; readonly milliseconds: number }
  /** `sort` tells one failure from another while an input is made small. */
  | { readonly kind: 'failed'; readonly sort: string; readonly why: string };

async function attempt(target: Target, input: Input): Promise<Attempt> {
  try {
    const first = await timedTake(target, input, () => performance.now());
    let { milliseconds } = first;
    for (let retry = 0; retry < retries && milliseconds > target.limitMilliseconds; retry += 1)
      milliseconds = Math.min(milliseconds, (await timedTake(target, input, () => processorSeconds() * 1000)).milliseconds);
    if (milliseconds <= target.limitMilliseconds) return { kind: 'held', outcome: first.outcome, milliseconds };
    return { kind: 'failed', sort: 'slow', why: `It took ${Math.round(milliseconds)} ms; the limit is ${target.limitMilliseconds} ms.` };
  } catch (error) {
    const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { kind: 'failed', sort: sortOf(error), why };
  }
}

/** The kind of the error and the place it came from. */
function sortOf(error: unknown): string {
  if (!(error instanceof Error)) return typeof error;
  const [frame = ''] = error.stack?.split('\n').filter((line) => /^\s+at /.test(line)) ?? [];
  return `${error.name}${frame}`;
}

async function timedTake(target: Target, input: Input, clock: () => number): Promise<{ outcome: Outcome; milliseconds: number }> {
  let longest: number | undefined;
  const note = (from: number): void => {
    longest = Math.max(longest ?? 0, clock() - from);
  };
  const timed: Timed = <T>(work: () => T): T => {
    const from = clock();
    const made = work();
    if (made instanceof Promise) return made.finally(() => note(from)) as T;
    note(from);
    return made;
  };
  const from = clock();
  const outcome = await target.take(input, timed);
  return { outcome, milliseconds: longest ?? clock() - from };
}

let collect: (() => void) | undefined;

function heapAfterCollecting(): number {
  if (collect === undefined) {
    setFlagsFromString('--expose-gc');
    collect = runInNewContext('gc') as () => void;
  }
  collect();
  return process.memoryUsage().heapUsed;
}
