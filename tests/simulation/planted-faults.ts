// `npm run planted`: plants each fault in a copy of the code and lives stormy days there until a claim breaks; `-- --days 300` is when it
// gives up. Exits with 1 when a fault was not found, or when its place in the code is gone.

import { spawn } from 'node:child_process';
import { cp, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type Planted, plantedFaults } from './planted.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The claim that broke and the days it took; null: none did. */
export async function find({ file, from, to }: Planted, days: number): Promise<{ readonly claim: string; readonly days: number } | null> {
  const copy = await mkdtemp(join(tmpdir(), 'planted-'));
  try {
    for (const part of ['src', 'flows', 'locales', 'tests/simulation', 'tests/support', 'package.json', 'tsconfig.json'])
      await cp(join(root, part), join(copy, part), { recursive: true });
    await symlink(join(root, 'node_modules'), join(copy, 'node_modules'));
    const before = await readFile(join(copy, file), 'utf8');
    if (before.split(from).length !== 2) throw new Error(`${file} does not hold this once: ${from}`);
    await writeFile(
      join(copy, file),
      before.replace(from, () => to),
    );
    const printed = await run(copy, days);
    const claim = /^BROKEN (?!SEED)(.*)$/m.exec(printed)?.[1];
    return claim === undefined ? null : { claim, days: Number(/^district-days +(\d+)$/m.exec(printed)?.[1]) };
  } finally {
    await rm(copy, { recursive: true, force: true });
  }
}

function run(copy: string, days: number): Promise<string> {
  const args = ['--import', 'tsx', 'tests/simulation/run.ts', '--storms', '--days', String(days)];
  const child = spawn(process.execPath, args, { cwd: copy, stdio: ['ignore', 'pipe', 'pipe'] });
  const printed: string[] = [];
  const errors: string[] = [];
  child.stdout.on('data', (some) => printed.push(String(some)));
  child.stderr.on('data', (some) => errors.push(String(some)));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', () => (printed.length > 0 ? resolve(printed.join('')) : reject(new Error(errors.join('')))));
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { values } = parseArgs({ options: { days: { type: 'string', default: '300' } } });
  let missed = 0;
  for (const planted of plantedFaults) {
    const found = await find(planted, Number(values.days));
    if (found === null) missed += 1;
    process.stdout.write(
      `${found === null ? 'NOT FOUND' : `found in ${found.days} days`}: ${planted.what}${found === null ? '' : ` (${found.claim.slice(0, 100)})`}\n`,
    );
  }
  process.stdout.write(`${plantedFaults.length - missed} of ${plantedFaults.length} planted faults found\n`);
  process.exit(missed === 0 ? 0 : 1);
}
