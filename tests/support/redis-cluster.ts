// A Redis Cluster of our own: three nodes on free loopback ports, each with a third of the slots. Next: redis-server.ts.

import { Redis } from 'ioredis';
import { type RedisServer, startRedisServer } from './redis-server.ts';

export interface RedisCluster {
  readonly nodes: readonly RedisServer[];
  /** Of all nodes, with commas, as REDIS_URL has it. */
  readonly urls: string;
  stop(): Promise<void>;
}

const slots = 16_384;

export async function startRedisCluster(size = 3): Promise<RedisCluster> {
  const nodes = await Promise.all(Array.from({ length: size }, () => startRedisServer({ cluster: true })));
  const clients = nodes.map(({ url }) => new Redis(url));
  const share = Math.ceil(slots / size);
  await Promise.all(
    clients.map((client, at) => client.call('CLUSTER', 'ADDSLOTSRANGE', at * share, Math.min(slots, (at + 1) * share) - 1)),
  );
  const [first] = clients;
  for (const { port, clusterPort } of nodes.slice(1)) await first?.call('CLUSTER', 'MEET', '127.0.0.1', port, clusterPort);
  for (const client of clients) {
    const knowsAll = async (): Promise<boolean> => {
      const info = String(await client.call('CLUSTER', 'INFO'));
      return info.includes('cluster_state:ok') && info.includes(`cluster_slots_ok:${slots}`);
    };
    while (!(await knowsAll()));
    client.disconnect();
  }
  return {
    nodes,
    urls: nodes.map(({ url }) => url).join(','),
    stop: async () => void (await Promise.all(nodes.map((node) => node.stop()))),
  };
}
