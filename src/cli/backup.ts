// `pipit backup` and `pipit restore`: the register to one packed file and back, from either database to either.
// What is not in it is said: sessions, where Redis holds them. Next: src/register/backup.ts, restore.ts.

import { once } from 'node:events';
import { accessSync, createReadStream, createWriteStream, rmSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { finished } from 'node:stream/promises';
import { createGunzip, createGzip } from 'node:zlib';
import { writeBackup } from '../register/backup.ts';
import { restoreBackup } from '../register/restore.ts';
import { redisSessions } from '../sessions/redis.ts';
import type { Config } from './config.ts';
import { withRegisterAsItStands } from './register-database.ts';

type Places = Pick<Config, 'DATABASE_URL' | 'PIPIT_DATA' | 'REDIS_URL'>;

/** Returns  the exit code. Errors: the file is there already; the database is away. A file that was not finished is taken away again. */
export async function backup(config: Places, to: string, now: number, print: (line: string) => void): Promise<number> {
  // Only its owner may read it, and nothing that is there is overwritten.
  const file = createWriteStream(to, { flags: 'wx', mode: 0o600 });
  await once(file, 'open');
  try {
    const packed = createGzip();
    const whole = finished(packed.pipe(file));
    // Waited for below; until then what breaks it is met by whoever writes.
    whole.catch(() => {});
    const rows = await withRegisterAsItStands(config, (database) =>
      writeBackup(database, now, async (line) => {
        if (!packed.write(`${line}\n`)) await Promise.race([once(packed, 'drain'), whole]);
      }),
    );
    packed.end();
    await whole;
    print(
      `${to}: ${rows} rows. It holds all that is in the register: keep it as you keep the register. What is sealed stays sealed: keep its keys, and elsewhere.`,
    );
    if (config.REDIS_URL !== undefined) await sayWhatRedisHolds(config.REDIS_URL, print);
    return 0;
  } catch (error) {
    file.destroy();
    rmSync(to, { force: true });
    throw error;
  }
}

const countedEntries = 1_000;

async function sayWhatRedisHolds(url: string, print: (line: string) => void): Promise<void> {
  print('Not in it: where each worker stands in her dialog, which Redis holds. Without Redis she begins that examination again.');
  const sessions = redisSessions({ url });
  try {
    const { length } = await sessions.kept(countedEntries);
    if (length > 0)
      print(
        `${length}${length === countedEntries ? ' or more' : ''} entries wait in Redis to be written, and are not in it. Let pipit serve or pipit work write them, then back up again.`,
      );
  } catch {
    print('Redis could not be asked whether entries wait there to be written; such entries are not in it.');
  } finally {
    await sessions.end();
  }
}

/** Returns  the exit code. Errors: see restoreBackup; nothing is changed then. */
export async function restore(config: Places, from: string, over: boolean, print: (line: string) => void): Promise<number> {
  accessSync(from);
  const { rows, at } = await withRegisterAsItStands(config, (database) => restoreBackup(database, linesOf(from), over));
  print(`${rows} rows as they were at ${new Date(at).toISOString()}. Start pipit serve: what fell due since is done first.`);
  return 0;
}

/** Opened only when it is read: lines that come before anybody asks would be lost. A file that is damaged ends early. */
async function* linesOf(file: string): AsyncGenerator<string> {
  const unpacked = createReadStream(file).pipe(createGunzip());
  const lines = createInterface({ input: unpacked, crlfDelay: Number.POSITIVE_INFINITY });
  unpacked.on('error', () => lines.close());
  try {
    yield* lines;
  } catch {
    // The last line is missed by whoever reads them.
  }
}
