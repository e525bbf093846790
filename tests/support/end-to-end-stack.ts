// Everything that stands around a server in the tests of faults: Redis, PostgreSQL and the gateway, each behind a relay
// that a test can make hang or leave. Next: end-to-end-relay.ts.

import { Redis } from 'ioredis';
import { keptKeys } from '../../src/sessions/redis.ts';
import { AUTH_TOKEN } from './channel-doors.ts';
import { type FakeGateway, startFakeGateway } from './end-to-end-gateway.ts';
import { ACCOUNT, makeProgramme, NURSE, type Programme } from './end-to-end-programme.ts';
import { type RegisterView, viewRegister } from './end-to-end-register.ts';
import { type Relay, startRelay } from './end-to-end-relay.ts';
import { type Environment, settingsWith } from './end-to-end-server.ts';
import { type PostgresServer, startPostgresServer } from './postgres-server.ts';
import { type RedisServer, startRedisServer } from './redis-server.ts';

export interface Way {
  /** Settings of a server whose stores and gateway are reached through the relays. */
  readonly environment: Environment;
  readonly relays: { readonly redis: Relay; readonly postgres: Relay; readonly gateway: Relay };
}

export interface Stack extends Way {
  /** Relays for one more server, of its own. */
  anotherWay(): Promise<Way>;
  readonly stores: { readonly redis: RedisServer; readonly postgres: PostgresServer };
  readonly gateway: FakeGateway;
  readonly programme: Programme;
  readonly register: RegisterView;
  /** A worker's phone that no test has used. */
  freshWorker(): string;
  /** Texts about this worker's babies that the gateway took for the nurse. */
  nurseTexts(worker: string): string[];
  /** As if the lock had run out that a dead process left on this phone. */
  endLock(phone: string): Promise<void>;
  /** Entries that are kept until the register takes them. */
  keptEntries(): Promise<number>;
  close(): Promise<void>;
}

export interface StackOptions {
  readonly nurses?: number;
  /** Redis survives its own death with all it has answered. */
  readonly saving?: boolean;
  /** PostgreSQL has a disk of its own, that can be filled. */
  readonly ownDiskMegabytes?: number;
}

export async function startStack(workers: number, { nurses = 1, saving = false, ...disk }: StackOptions = {}): Promise<Stack> {
  const programme = makeProgramme(workers, nurses);
  const starting = [startRedisServer({ saving }), startPostgresServer(disk), startFakeGateway(ACCOUNT, AUTH_TOKEN)] as const;
  const [redis, postgres, gateway] = await Promise.all(starting);
  const relays: Relay[] = [];
  const relayTo = async (url: string): Promise<Relay> => {
    const relay = await startRelay({ port: Number(new URL(url).port) });
    relays.push(relay);
    return relay;
  };
  const anotherWay = async (): Promise<Way> => {
    const [toRedis, toPostgres, toGateway] = await Promise.all([relayTo(redis.url), relayTo(postgres.url), relayTo(gateway.url)]);
    const stores = { REDIS_URL: through(redis.url, toRedis), DATABASE_URL: through(postgres.url, toPostgres) };
    return {
      environment: { ...settingsWith(through(gateway.url, toGateway)), ...programme.environment, ...stores },
      relays: { redis: toRedis, postgres: toPostgres, gateway: toGateway },
    };
  };
  const client = new Redis(redis.url);
  client.on('error', () => {});
  const register = viewRegister(postgres.url);
  let used = 0;
  return {
    ...(await anotherWay()),
    anotherWay,
    stores: { redis, postgres },
    gateway,
    programme,
    register,
    freshWorker: () => {
      used += 1;
      return programme.worker(used);
    },
    nurseTexts: (worker) => gateway.takenFor(NURSE).filter((text) => text.includes(worker)),
    endLock: async (phone) => void (await client.del(`pipit:{${phone}}:lock`)),
    keptEntries: () => client.hlen(keptKeys('pipit')[1]),
    close: async () => {
      client.disconnect();
      await register.close();
      await Promise.all(relays.map((relay) => relay.close()));
      await Promise.all([redis.stop(), postgres.stop(), gateway.close()]);
      programme.remove();
    },
  };
}

function through(url: string, { port }: Relay): string {
  return url.replace(/:\d+(?=\/|$)/, `:${port}`);
}
