// `npm run bench`: ratios and figures as JSON lines, each a median over rounds of one run on this machine, with its method in the line.
// The program is taken as it is built (as-built.ts). `-- --part pure,sessions` measures some of it; `-- --short` looks only whether it runs,
// as CI does (bench.test.ts).

import { parseArgs } from 'node:util';
import { measureProcesses } from './processes.ts';
import { measurePure } from './pure.ts';
import { measureRegister } from './register.ts';
import { measureSessions } from './sessions.ts';
import { measureStart } from './start.ts';
import { measureWebhook } from './webhook.ts';

const parts = {
  pure: measurePure,
  sessions: measureSessions,
  register: measureRegister,
  start: measureStart,
  webhook: measureWebhook,
  processes: measureProcesses,
};
type Part = keyof typeof parts;

const { values } = parseArgs({ options: { short: { type: 'boolean', default: false }, part: { type: 'string' } } });
const isPart = (name: string): name is Part => Object.hasOwn(parts, name);
const wanted = values.part?.split(',') ?? Object.keys(parts);
const unknown = wanted.filter((name) => !isPart(name));
if (unknown.length > 0) throw new Error(`There is no part ${unknown.join(', ')}. Take some of: ${Object.keys(parts).join(',')}.`);
for (const name of wanted.filter(isPart)) {
  await parts[name]({
    isShort: values.short,
    rounds: values.short ? 1 : 7,
    print: (line) => void process.stdout.write(`${JSON.stringify(values.short ? { short: true, ...line } : line)}\n`),
  });
}
