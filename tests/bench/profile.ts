// Where the time of a server goes, by profile: `BENCH_PROFILE=<folder> npm run bench -- --part webhook`, then
// `npm run profile -- <folder>` prints a JSON line of the shares of its busy time. A sample belongs to the nearest caller that is named below.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

interface Profile {
  readonly nodes: readonly {
    readonly id: number;
    readonly callFrame: { readonly functionName: string; readonly url: string };
    readonly children?: readonly number[];
  }[];
  readonly samples: readonly number[];
  readonly timeDeltas: readonly number[];
}

/** The first that fits the place of a function names its part; what Node does belongs to who called it. What only a start needs is left out. */
const parts: readonly (readonly [part: string, place: RegExp])[] = [
  ['start', /dist\/(?:authoring|changes|economy|planning)\/|esm\/loader|cjs\/loader|dist\/cli\/(?:prove|load|workshop)/],
  ['turn: what the case means', /dist\/clinical\//],
  ['turn: the rest of the dialog', /dist\/dialog\//],
  ['words of the reply', /dist\/messages\/|conversation\/(?:compose|speak)/],
  ['register and PostgreSQL', /dist\/register\/|node_modules\/pg/],
  [
    'Redis: session and two limits',
    /dist\/sessions\/|ioredis|redis-|rate-limiter-flexible|conversation\/(?:stored-session|packed-examination)/,
  ],
  ['signature', /node_modules\/twilio/],
  ['telephone numbers', /libphonenumber/],
  ['measures', /prom-client|channels\/watching/],
  ['between door and turn', /dist\/(?:conversation|channels|cli|on-call)\//],
  ['Express, body-parser, headers', /node_modules\/(?:express|router|body-parser|raw-body|qs|helmet|etag|send|finalhandler|type-is)/],
];

const [folder = '.'] = process.argv.slice(2);
const files = readdirSync(folder).filter((name) => name.endsWith('.cpuprofile'));
if (files.length === 0)
  throw new Error(`There is no profile in ${folder}. Run BENCH_PROFILE=${folder} npm run bench -- --part webhook first.`);
for (const name of files) {
  const shares = sharesOf(JSON.parse(readFileSync(join(folder, name), 'utf8')) as Profile);
  process.stdout.write(`${JSON.stringify({ profile: 'webhook', unit: '% of busy time without the start', ...shares })}\n`);
}

function sharesOf({ nodes, samples, timeDeltas }: Profile): Record<string, number> {
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const callers = new Map(nodes.flatMap(({ id, children = [] }) => children.map((child) => [child, id] as const)));
  const found = new Map<number, string>();
  const partOf = (id: number | undefined): string => {
    const node = id === undefined ? undefined : byId.get(id);
    if (id === undefined || node === undefined) return 'HTTP in, and the rest of Node';
    const known = found.get(id);
    if (known !== undefined) return known;
    const { functionName, url } = node.callFrame;
    const own = functionName === '(garbage collector)' ? 'collecting garbage' : parts.find(([, place]) => place.test(url))?.[0];
    const part = ['(idle)', '(program)'].includes(functionName) ? 'idle' : (own ?? partOf(callers.get(id)));
    found.set(id, part);
    return part;
  };
  const times = new Map<string, number>();
  for (const [at, id] of samples.entries()) times.set(partOf(id), (times.get(partOf(id)) ?? 0) + (timeDeltas[at] ?? 0));
  for (const left of ['idle', 'start']) times.delete(left);
  const all = [...times.values()].reduce((sum, time) => sum + time, 0);
  const sorted = [...times].sort(([, one], [, other]) => other - one);
  return Object.fromEntries(sorted.map(([part, time]) => [part, Math.round((1_000 * time) / all) / 10]));
}
