// `npm run soak`: workers text two servers for an hour at a third of what these answer at most, while one of the two is killed again and
// again and replaced. Prints a JSON line a tenth of the time, then whether memory and latency of the server that lives were flat and the
// books balance. `-- --minutes 10 --phones 60 --seed 7`. Exits with 1 when something did not hold.

import { parseArgs } from 'node:util';
import { buildCommand } from '../support/end-to-end-build.ts';
import { seededRandom } from '../support/end-to-end-seed.ts';
import { type ServerProcess, startServerProcess } from '../support/end-to-end-server.ts';
import { startStack } from '../support/end-to-end-stack.ts';
import { balance } from './books.ts';
import { type Driven, drive } from './drivers.ts';

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '60' },
    phones: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
  },
});
const minutes = Number(values.minutes);
const phones = Number(values.phones);
const random = seededRandom(Number(values.seed));
const MINUTE = 60_000;
const share = 1 / 3;
const windows = 10;
/** Of the later half to the half before it, above which it is not flat. */
const mostGrowth = { memory: 1.15, latency: 1.5 };
const print = (line: object): void => void process.stdout.write(`${JSON.stringify(line)}\n`);

const built = buildCommand();
const stack = await startStack(2 * phones + 1, { saving: true });
const token = 'the-metrics-token-of-a-soak';
const start = (): Promise<ServerProcess> => startServerProcess({ ...stack.environment, PIPIT_METRICS_TOKEN: token }, [built.command]);
const living = await start();
let doomed = await start();
const urls = (): string => (random() < 0.5 ? living.url : doomed.url);

// What they answer at most: every phone texts again as soon as it was answered.
const burstEnds = performance.now() + Math.min(30_000, (minutes * MINUTE) / 10);
const burst = await Promise.all(
  Array.from({ length: phones }, () =>
    drive({
      phone: stack.freshWorker(),
      url: urls,
      pace: async () => {},
      goesOn: () => performance.now() < burstEnds,
      random,
      answered: () => {},
    }),
  ),
);
const burstSeconds = Math.min(30, minutes * 6);
const peak = sum(burst, ({ texts }) => texts) / burstSeconds;
const rate = peak * share;
print({ phones, peakTextsPerSecond: round(peak), textsPerSecond: round(rate) });

const began = performance.now();
const ends = began + minutes * MINUTE;
const latencies: number[][] = Array.from({ length: windows }, () => []);
/** Megabytes of the process; how many of them V8 hands back, and when, is its own affair. */
const resident: number[][] = Array.from({ length: windows }, () => []);
/** Megabytes in use, which fall to what is still needed whenever garbage was collected: the least of a window is what a leak adds to. */
const inUse: number[][] = Array.from({ length: windows }, () => []);
const windowNow = (): number => Math.min(windows - 1, Math.floor(((performance.now() - began) / (ends - began)) * windows));
let next = began;
const pace = async (): Promise<void> => {
  next = Math.max(next, performance.now()) + 1000 / rate;
  await pause(next - performance.now());
};

let kills = 0;
const killing = (async () => {
  while (performance.now() < ends) {
    await pause(5_000 + random() * 25_000);
    await doomed.end('SIGKILL');
    kills += 1;
    doomed = await start();
  }
})();
const watching = (async () => {
  while (performance.now() < ends) {
    await pause(2_000);
    const metrics = await (await fetch(`${living.url}/metrics`, { headers: { authorization: `Bearer ${token}` } })).text();
    const megabytes = (measure: string): number =>
      Number(new RegExp(`^(?:\\w+_)?${measure} (\\S+)$`, 'm').exec(metrics)?.[1]) / 1024 / 1024;
    resident[windowNow()]?.push(megabytes('process_resident_memory_bytes'));
    inUse[windowNow()]?.push(megabytes('nodejs_heap_size_used_bytes') + megabytes('nodejs_external_memory_bytes'));
  }
})();
const driven: Driven[] = await Promise.all(
  Array.from({ length: phones }, () =>
    drive({
      phone: stack.freshWorker(),
      url: urls,
      pace,
      goesOn: () => performance.now() < ends,
      random,
      answered: ({ began: from, ended, url }) => void (url === living.url && latencies[windowNow()]?.push(ended - from)),
    }),
  ),
);
await Promise.all([killing, watching]);

for (let window = 0; window < windows; window += 1) {
  const took = latencies[window] ?? [];
  const memory = { residentMB: at(resident[window] ?? [], 0.5), leastInUseMB: at(inUse[window] ?? [], 0) };
  print({ window: window + 1, answers: took.length, p50: at(took, 0.5), p99: at(took, 0.99), ...memory });
}
const half = <T>(all: readonly T[][], from: number, to: number): T[] => all.slice(from, to).flat();
const leastOf = (from: number, to: number): number[] => inUse.slice(from, to).map((window) => at(window, 0));
const growth = {
  memory: round(at(leastOf(6, 10), 0.5) / at(leastOf(2, 6), 0.5)),
  latency: round(at(half(latencies, 6, 10), 0.99) / at(half(latencies, 2, 6), 0.99)),
};
const books = await balance(stack, [...burst, ...driven]);
const failed = [
  ...(!(growth.memory <= mostGrowth.memory) ? [`memory grew to ${growth.memory} times`] : []),
  ...(!(growth.latency <= mostGrowth.latency) ? [`latency grew to ${growth.latency} times`] : []),
  ...books.wrong,
];
print({ minutes, kills, unanswered: sum(driven, (one) => one.unanswered), growth, ...books, failed });
await Promise.all([living.end('SIGTERM'), doomed.end('SIGTERM')]);
await stack.close();
built.remove();
process.exit(failed.length === 0 ? 0 : 1);

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, Math.max(0, milliseconds)));
}
function sum<T>(all: readonly T[], of: (one: T) => number): number {
  return all.reduce((total, one) => total + of(one), 0);
}
function at(unsorted: readonly number[], share: number): number {
  const sorted = [...unsorted].sort((a, b) => a - b);
  return round(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN);
}
function round(value: number): number {
  return Math.round(value * 100) / 100;
}
