// Two servers whose sessions lie in a Redis Cluster of three nodes: either serves any phone, and each node has some of them.

import { Redis } from 'ioredis';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { AUTH_TOKEN } from '../support/channel-doors.ts';
import { type FakeGateway, startFakeGateway } from '../support/end-to-end-gateway.ts';
import { examineWellBaby, phoneThatTexts } from '../support/end-to-end-phones.ts';
import { ACCOUNT, makeProgramme, type Programme } from '../support/end-to-end-programme.ts';
import { type RegisterView, viewRegister } from '../support/end-to-end-register.ts';
import { type ServerHere, settingsWith, startServerHere } from '../support/end-to-end-server.ts';
import { type PostgresServer, startPostgresServer } from '../support/postgres-server.ts';
import { type RedisCluster, startRedisCluster } from '../support/redis-cluster.ts';

const workers = 8;

let cluster: RedisCluster;
let postgres: PostgresServer;
let gateway: FakeGateway;
let programme: Programme;
let register: RegisterView;
let servers: readonly ServerHere[] = [];

beforeAll(async () => {
  programme = makeProgramme(workers);
  [cluster, postgres, gateway] = await Promise.all([startRedisCluster(), startPostgresServer(), startFakeGateway(ACCOUNT, AUTH_TOKEN)]);
  register = viewRegister(postgres.url);
  const stores = { REDIS_URL: cluster.urls, DATABASE_URL: postgres.url };
  const start = (): Promise<ServerHere> => startServerHere({ ...settingsWith(gateway.url), ...programme.environment, ...stores });
  servers = [await start(), await start()];
});
afterAll(async () => {
  for (const server of servers) await server.stop();
  await register?.close();
  await Promise.all([cluster?.stop(), postgres?.stop(), gateway?.close()]);
  programme?.remove();
});

it('carries examinations of many phones at once, each text by another server', async () => {
  const phones = Array.from({ length: workers }, (_, at) => programme.worker(at));
  let turn = 0;
  const either = (): string => {
    turn += 1;
    return servers[turn % servers.length]?.url ?? '';
  };
  const results = await Promise.all(phones.map((phone) => examineWellBaby(phoneThatTexts(either, phone))));
  for (const result of results) expect(result).toContain('WELL');
  for (const phone of phones) expect(await register.examinations(phone)).toHaveLength(1);

  const held = cluster.nodes.map(async ({ url }) => {
    const node = new Redis(url);
    const keys = await node.keys('pipit:*:session');
    node.disconnect();
    return keys.length;
  });
  const counts = await Promise.all(held);
  expect(counts.reduce((sum, count) => sum + count, 0)).toBe(workers);
  expect(Math.max(...counts)).toBeLessThan(workers);
});
