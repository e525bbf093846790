// `npm run week`: simulates a week and prints its figures and how fast it went. `-- --seed 7` for another week.

import { parseArgs } from 'node:util';
import { simulate, wholeWeek } from './week.ts';

const { values } = parseArgs({ options: { seed: { type: 'string', default: '1' } } });
const began = performance.now();
const week = await simulate({ ...wholeWeek, seed: Number(values.seed) });
const seconds = (performance.now() - began) / 1000;
for (const [name, value] of Object.entries(week.figures)) process.stdout.write(`${name.padEnd(26)} ${value}\n`);
process.stdout.write(`${'seconds'.padEnd(26)} ${seconds.toFixed(1)}\n${'digest'.padEnd(26)} ${week.digest.slice(0, 16)}\n`);
for (const claim of week.broken) process.stdout.write(`BROKEN ${claim}\n`);
process.exit(week.broken.length === 0 ? 0 : 1);
