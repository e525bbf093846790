// What the webhook is measured on: real stores, a gateway, as many servers as are asked for, and the phones, in a process of their own.
// Next: load.ts, the phones; webhook.ts and processes.ts, what is measured.

import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { Redis } from 'ioredis';
import { openPostgres } from '../../src/register/postgres.ts';
import { buildCommand } from '../support/end-to-end-build.ts';
import { startFakeGateway } from '../support/end-to-end-gateway.ts';
import { ACCOUNT, makeProgramme } from '../support/end-to-end-programme.ts';
import { freePort } from '../support/free-port.ts';
import { startPostgresServer } from '../support/postgres-server.ts';
import { startRedisServer } from '../support/redis-server.ts';
import { type StartedProcess, startProcess } from '../support/started-process.ts';
import type { Measured, Round } from './load.ts';
import { openMix } from './mix.ts';

export const phones = 32;
const publicUrl = 'https://pipit.example.org';
const token = 'an-invented-token';
const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

export interface Stage {
  readonly mix: readonly (readonly string[])[];
  /** Starts a server of this program, built, and returns its port. */
  startServer(): Promise<number>;
  startCeiling(bytes: number): Promise<number>;
  /** One round of the whole mix on every phone, each beginning at another place in it; the phones share the ports. */
  play(name: string, ports: readonly number[], perSecond?: number): Promise<Measured>;
  /** Bytes of a session in the middle of a normal examination, played for it by a phone of its own. */
  sessionBytes(port: number): Promise<number>;
  /** What was measured must have been the work: every examination is in the register, once. Errors: it is not. */
  hasRecorded(rounds: number): Promise<void>;
  end(): Promise<void>;
}

/** Takes    examinationsEach: of every phone in a round. */
export async function openStage(examinationsEach: number): Promise<Stage> {
  const { mix } = openMix();
  const programme = makeProgramme(phones + 1);
  const built = buildCommand();
  const [redis, postgres, gateway] = await Promise.all([startRedisServer(), startPostgresServer(), startFakeGateway(ACCOUNT, token)]);
  const client = new Redis(redis.url);
  await client.config('SET', 'appendfsync', 'everysec');
  await client.config('SET', 'appendonly', 'yes');
  const load: ChildProcess = fork(here('load.ts'), { execArgv: ['--import', 'tsx'] });
  const environment = {
    ...programme.environment,
    PATH: process.env.PATH ?? '',
    NODE_ENV: 'production',
    PUBLIC_URL: publicUrl,
    SMS_ACCOUNT: ACCOUNT,
    SMS_TOKEN: token,
    SMS_FROM: '+254700000999',
    SMS_API: gateway.url,
    REDIS_URL: redis.url,
    DATABASE_URL: postgres.url,
    PIPIT_SAME_TEXT_SECONDS: '0',
    PIPIT_KEYS: `bench:${Buffer.alloc(32, 7).toString('base64')}`,
    PIPIT_MESSAGES_A_MINUTE: '1000',
    PIPIT_MESSAGES_A_SECOND: '100000',
  };
  const profile = process.env.BENCH_PROFILE === undefined ? [] : ['--cpu-prof', `--cpu-prof-dir=${process.env.BENCH_PROFILE}`];
  const started: StartedProcess[] = [];
  const start = async (args: readonly string[], sign: string, env: NodeJS.ProcessEnv): Promise<void> => {
    started.push(await startProcess(process.execPath, args, { env, sign, remedy: 'Run npm install.' }));
  };
  const ask = async (round: Pick<Round, 'ports' | 'name' | 'phones' | 'perSecond'>): Promise<Measured> => {
    load.send({ ...round, publicUrl, token });
    const [measured] = (await once(load, 'message')) as [Measured];
    if (measured.refused > 0)
      throw new Error(`${measured.refused} of ${measured.turns} texts were not answered with 200. Run the end-to-end tests first.`);
    return measured;
  };

  return {
    mix,
    async startServer() {
      const port = await freePort();
      await start([...profile, built.command, 'serve'], 'pipit is listening', { ...environment, PORT: String(port) });
      return port;
    },
    async startCeiling(bytes) {
      const port = await freePort();
      const args = ['--import', 'tsx', here('ceiling.ts'), redis.url, String(port), String(bytes)];
      await start(args, 'ceiling is listening', { ...process.env, NODE_ENV: 'production' });
      return port;
    },
    play: (name, ports, perSecond) =>
      ask({
        ports,
        name,
        ...(perSecond === undefined ? {} : { perSecond }),
        phones: Array.from({ length: phones }, (_, number) => ({
          from: programme.worker(number),
          texts: Array.from({ length: examinationsEach }, (_none, at) => mix[(number + at) % mix.length] ?? []).flat(),
        })),
      }),
    async sessionBytes(port) {
      const from = programme.worker(phones);
      const [first = []] = mix;
      await ask({ ports: [port], name: 'half', phones: [{ from, texts: first.slice(0, Math.ceil(first.length / 2)) }] });
      return client.strlen(`pipit:{${from}}:session`);
    },
    async hasRecorded(rounds) {
      const register = openPostgres(postgres.url);
      const [counted] = await register.query<{ examinations: number }>('select count(*) as examinations from examinations');
      await register.close();
      const played = rounds * phones * examinationsEach;
      if (counted?.examinations !== played)
        throw new Error(
          `${played} examinations were played and ${counted?.examinations} are in the register. Run the end-to-end tests first.`,
        );
    },
    async end() {
      load.disconnect();
      client.disconnect();
      await Promise.all(started.map((one) => one.end('SIGTERM')));
      await Promise.all([redis.stop(), postgres.stop(), gateway.close()]);
      programme.remove();
      built.remove();
    },
  };
}
