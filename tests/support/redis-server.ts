// A Redis of our own on a free loopback port, in a folder of its own. Where Redis is missing the test fails: a suite that
// passes without having asked Redis would say nothing.

import { freePort } from './free-port.ts';
import { startProcess } from './started-process.ts';
import { temporaryFolder } from './temporary-folder.ts';

export interface RedisServer {
  readonly port: number;
  /** Where the nodes of a cluster speak to each other. */
  readonly clusterPort: number;
  readonly url: string;
  /** Stops answering, connections stay open. */
  freeze(): void;
  thaw(): void;
  /** Kills it, and resolves when it stands again where it stood, with what it had saved. */
  killAndRestart(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * With `cluster`, a node of a Redis Cluster that owns no slot yet: see redis-cluster.ts.
 * With `saving`, it has on disk what it has answered (append-only file, synced always), as it must in production.
 */
export async function startRedisServer({ cluster = false, saving = false } = {}): Promise<RedisServer> {
  const folder = temporaryFolder();
  const port = await freePort();
  const clusterPort = await freePort();
  const clusterArgs = ['--cluster-enabled', 'yes', '--cluster-port', String(clusterPort), '--cluster-announce-ip', '127.0.0.1'].concat(
    // The other nodes go on without one that is away, and know within half a second that it is.
    ['--cluster-require-full-coverage', 'no', '--cluster-node-timeout', '500'],
  );
  const savingArgs = saving ? ['--appendonly', 'yes', '--appendfsync', 'always'] : [];
  const args = ['--port', String(port), '--bind', '127.0.0.1', '--save', '', '--dir', folder.path, ...savingArgs];
  const start = () =>
    startProcess('redis-server', [...args, ...(cluster ? clusterArgs : [])], {
      sign: 'Ready to accept connections',
      remedy: 'Install Redis 6 or newer (Debian: apt-get install -y redis-server) and run the tests again.',
    });
  let server = await start();
  const url = `redis://127.0.0.1:${port}`;
  return {
    port,
    clusterPort,
    url,
    freeze: () => server.signal('SIGSTOP'),
    thaw: () => server.signal('SIGCONT'),
    killAndRestart: async () => {
      await server.end('SIGKILL');
      server = await start();
    },
    stop: async () => {
      server.signal('SIGCONT');
      await server.end('SIGTERM');
      folder.remove();
    },
  };
}
