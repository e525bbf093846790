// An embedded database in memory with all migrations, many times quicker than making one: the first test that wants one leaves an
// image of it beside the installed packages, and the others load that. A changed migration makes a new image.

import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PGlite } from '@electric-sql/pglite';
import type { Database } from '../../src/register/database.ts';
import { migrate, migrationNames } from '../../src/register/migrate.ts';
import { databaseOver } from '../../src/register/pglite.ts';

const root = new URL('../../', import.meta.url);
const folder = fileURLToPath(new URL('node_modules/.cache/pipit/', root));

/** Empty but for the migrations. */
export async function openMigrated(): Promise<Database> {
  const image = `${folder}${imageName()}`;
  if (!existsSync(image)) await makeImage(image);
  return databaseOver(await PGlite.create({ dataDir: 'memory://', loadDataDir: new Blob([readFileSync(image)]) }));
}

function imageName(): string {
  const hash = createHash('sha256').update(readFileSync(new URL('node_modules/@electric-sql/pglite/package.json', root)));
  for (const name of migrationNames()) hash.update(readFileSync(new URL(`src/register/migrations/${name}`, root)));
  return `migrated-${hash.digest('hex').slice(0, 16)}.tar`;
}

/** Written whole under another name first: several tests may make it at once. */
async function makeImage(image: string): Promise<void> {
  const pglite = await PGlite.create('memory://');
  await migrate(databaseOver(pglite));
  const dump = await pglite.dumpDataDir('none');
  await pglite.close();
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder)) if (!name.startsWith(basename(image))) rmSync(`${folder}${name}`, { force: true });
  const draft = `${image}.${randomUUID()}`;
  writeFileSync(draft, Buffer.from(await dump.arrayBuffer()));
  renameSync(draft, image);
}
