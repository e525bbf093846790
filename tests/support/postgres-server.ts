// A PostgreSQL server of our own on a free loopback port, in a folder of its own. Where PostgreSQL is missing the test
// fails with the remedy. PostgreSQL refuses to run as root, so root starts it as the user its package brings.

import { execFileSync } from 'node:child_process';
import { chownSync, existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { freePort } from './free-port.ts';
import { type StartedProcess, startProcess } from './started-process.ts';
import { temporaryFolder } from './temporary-folder.ts';

const remedy = 'Install PostgreSQL 15 or newer (Debian: apt-get install -y postgresql) and run the tests again.';

export interface PostgresServer {
  readonly url: string;
  /** Ends it at once and without a checkpoint, and resolves when it stands again where it stood, recovered from its log. */
  killAndRestart(signal: 'SIGQUIT' | 'SIGKILL'): Promise<void>;
  /** Leaves no room on its disk, or gives it back; of one that was started with a disk of its own. */
  fillDisk(): void;
  freeDisk(): void;
  stop(): Promise<void>;
}

/** With `ownDiskMegabytes`, its data lies on a disk in memory, of that size. */
export async function startPostgresServer({ ownDiskMegabytes }: { readonly ownDiskMegabytes?: number } = {}): Promise<PostgresServer> {
  const folder = temporaryFolder();
  const unmount = ownDiskMegabytes === undefined ? () => {} : mountDisk(folder.path, ownDiskMegabytes);
  const ballast = join(folder.path, 'ballast');
  const port = await freePort();
  const programs = findPrograms();
  const owner = ownerOf(folder.path);
  const data = join(folder.path, 'data');

  execFileSync(join(programs, 'initdb'), ['-D', data, '-A', 'trust', '-U', 'pipit', '-E', 'UTF8', '--locale=C.UTF-8', '--no-sync'], {
    ...owner,
    cwd: folder.path,
    stdio: 'pipe',
  });
  // No waiting for the disk: the data is thrown away with the folder, and what a killed process wrote the system still has.
  const settings = { listen_addresses: '127.0.0.1', port, unix_socket_directories: folder.path, fsync: 'off' };
  const args = ['-D', data, ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])];
  const sign = 'database system is ready to accept connections';
  const start = () => startProcess(join(programs, 'postgres'), args, { ...owner, cwd: folder.path, sign, remedy });
  let server = await start();
  return {
    url: `postgres://pipit@127.0.0.1:${port}/postgres`,
    killAndRestart: async (signal) => {
      await server.end(signal);
      server = await startOver(start);
    },
    stop: async () => {
      // Fast shutdown: connections that are still open are cut.
      await server.end('SIGINT');
      unmount();
      folder.remove();
    },
    fillDisk: () => {
      try {
        writeFileSync(ballast, Buffer.alloc((ownDiskMegabytes ?? 0) * 1024 * 1024));
      } catch (full) {
        if ((full as NodeJS.ErrnoException).code !== 'ENOSPC') throw full;
      }
    },
    freeDisk: () => rmSync(ballast),
  };
}

/** What it gives back takes the disk away again; so does the end of this process. Only root may, as when the servers were installed. */
function mountDisk(place: string, megabytes: number): () => void {
  const asRoot = (command: string, ...args: string[]): void => {
    const [first = command, ...rest] = process.getuid?.() === 0 ? [command, ...args] : ['sudo', '-n', command, ...args];
    execFileSync(first, rest, { stdio: 'pipe' });
  };
  asRoot('mount', '-t', 'tmpfs', '-o', `size=${megabytes}m,mode=777`, 'tmpfs', place);
  const unmount = (): void => {
    process.off('exit', unmount);
    asRoot('umount', '--lazy', place);
  };
  process.once('exit', unmount);
  return unmount;
}

/** After a SIGKILL the server's own children take a moment to see that it is gone; until then a new one refuses to start. */
async function startOver(start: () => Promise<StartedProcess>): Promise<StartedProcess> {
  for (;;) {
    try {
      return await start();
    } catch (error) {
      if (!/still in use|lock file .* already exists/.test(String(error))) throw error;
    }
  }
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
