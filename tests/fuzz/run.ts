// `npm run fuzz`: generated input for everything that reads what it did not write. SEED and INPUTS in the environment; TARGET
// names one target. A line of JSON for each: inputs, what became of them, longest milliseconds, growth of the heap. An input that fails is
// made small and printed with what repeats it, and the exit code is 1. Next: run-target.ts, targets/.

import { heapMayGrowKilobytes } from './heap.ts';
import { runTarget } from './run-target.ts';
import { targets } from './targets/all.ts';

const seed = Number(process.env.SEED ?? 1);
const inputs = Number(process.env.INPUTS ?? 2_000_000);
const only = process.env.TARGET;
const chosen = targets.filter(({ name }) => only === undefined || name === only);
if (chosen.length === 0) throw new Error(`There is no target "${only}". Name one of: ${targets.map(({ name }) => name).join(', ')}.`);
const shares = chosen.reduce((sum, { share }) => sum + share, 0);
const print = (line: object): void => void process.stdout.write(`${JSON.stringify(line)}\n`);

let total = 0;
for (const target of chosen) {
  const { failure, ...counts } = await runTarget(target, seed, Math.ceil((inputs * target.share) / shares));
  total += counts.inputs;
  print(counts);
  const grew = counts.heapGrowthKilobytes > heapMayGrowKilobytes;
  if (grew) print({ failed: target.name, why: `The heap grew by more than ${heapMayGrowKilobytes} KB.` });
  if (failure !== undefined)
    print({ failed: target.name, repeat: `TARGET=${target.name} SEED=${seed} INPUTS=${inputs} npm run fuzz`, ...failure });
  if (grew || failure !== undefined) process.exitCode = 1;
}
for (const { close } of targets) await close?.();
print({ total, seed });
