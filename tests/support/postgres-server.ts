// A PostgreSQL server of our own on a free loopback port, in a folder of its own. Where PostgreSQL is missing the test
// fails with the remedy. PostgreSQL refuses to run as root, so root starts it as the user its package brings.

import { execFileSync } from 'node:child_process';
import { chownSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { freePort } from './free-port.ts';
import { startProcess } from './started-process.ts';
import { temporaryFolder } from './temporary-folder.ts';

const remedy = 'Install PostgreSQL 15 or newer (Debian: apt-get install -y postgresql) and run the tests again.';

export interface PostgresServer {
  readonly url: string;
  stop(): Promise<void>;
}

export async function startPostgresServer(): Promise<PostgresServer> {
  const folder = temporaryFolder();
  const port = await freePort();
  const programs = findPrograms();
  const owner = ownerOf(folder.path);
  const data = join(folder.path, 'data');

  execFileSync(join(programs, 'initdb'), ['-D', data, '-A', 'trust', '-U', 'pipit', '-E', 'UTF8', '--locale=C.UTF-8', '--no-sync'], {
    ...owner,
    cwd: folder.path,
    stdio: 'pipe',
  });
  // No waiting for the disk: the data is thrown away with the folder.
  const settings = { listen_addresses: '127.0.0.1', port, unix_socket_directories: folder.path, fsync: 'off' };
  const server = await startProcess(
    join(programs, 'postgres'),
    ['-D', data, ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])],
    { ...owner, cwd: folder.path, sign: 'database system is ready to accept connections', remedy },
  );
  return {
    url: `postgres://pipit@127.0.0.1:${port}/postgres`,
    stop: async () => {
      // Fast shutdown: connections that are still open are cut.
      await server.end('SIGINT');
      folder.remove();
    },
  };
}

/** Debian keeps the server's programs by version, off the PATH; elsewhere pg_config knows. */
function findPrograms(): string {
  const debian = '/usr/lib/postgresql';
  const newest = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a))[0] : undefined;
  if (newest !== undefined && existsSync(join(debian, newest, 'bin/initdb'))) return join(debian, newest, 'bin');
  try {
    return execFileSync('pg_config', ['--bindir'], { encoding: 'utf8' }).trim();
  } catch (cause) {
    throw new Error(`No PostgreSQL server was found. ${remedy}`, { cause });
  }
}

function ownerOf(folder: string): { uid?: number; gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const idOf = (flag: string) => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }));
  const [uid, gid] = [idOf('-u'), idOf('-g')];
  chownSync(folder, uid, gid);
  return { uid, gid };
}
