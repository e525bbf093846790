// `npm run week`: a calm week of a whole district, its figures, and how fast it went; `-- --seed 7` for another week.
// `npm run storms`: stormy days of small districts, one seed after another, until `-- --days 1000` are lived or a claim breaks. The
// seed that broke is printed, and `-- --seed 7 --days 10` lives it again, exactly.

import { parseArgs } from 'node:util';
import { type Lived, live, smallDistrict, wholeWeek } from './district-days.ts';

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    days: { type: 'string', default: '1000' },
    storms: { type: 'boolean', default: false },
  },
});
const began = performance.now();
const print = (name: string, value: unknown): void => void process.stdout.write(`${name.padEnd(28)} ${value}\n`);
const sums = new Map<string, number>();
const add = ({ figures, happened }: Lived): void => {
  for (const [name, value] of Object.entries({ ...figures, ...happened })) sums.set(name, (sums.get(name) ?? 0) + value);
};

let days = 0;
let broken: readonly string[] = [];
let seed = Number(values.seed);
if (values.storms) {
  const wanted = Number(values.days);
  for (; days < wanted && broken.length === 0; seed += 1) {
    const lived = await live({ ...smallDistrict, seed });
    add(lived);
    days += smallDistrict.days;
    broken = lived.broken;
    if (broken.length > 0) print('BROKEN SEED', `${seed}, at ${new Date(lived.brokeAt ?? 0).toISOString()}`);
  }
} else {
  const lived = await live({ ...wholeWeek, seed });
  add(lived);
  days = wholeWeek.days;
  broken = lived.broken;
  print('digest', lived.digest.slice(0, 16));
}
print('district-days', days);
for (const [name, value] of sums) print(name, value);
print('seconds', ((performance.now() - began) / 1000).toFixed(1));
for (const claim of broken) process.stdout.write(`BROKEN ${claim}\n`);
process.exit(broken.length === 0 ? 0 : 1);
