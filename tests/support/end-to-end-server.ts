// `pipit serve` as it is deployed: a process of its own on a free loopback port, or within this one, with the settings of
// a production that has a gateway. Next: end-to-end-phones.ts, which speak to it.

import { fileURLToPath } from 'node:url';
import { readConfig } from '../../src/cli/config.ts';
import { serve } from '../../src/cli/serve.ts';
import { AUTH_TOKEN, PUBLIC_URL, SECRET } from './channel-doors.ts';
import { ACCOUNT, NUMBER_OF_OURS } from './end-to-end-programme.ts';
import { type StartedProcess, startProcess } from './started-process.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

export type Environment = Readonly<Record<string, string>>;

/** What every server here is told, besides its stores, its programme and its gateway. */
export const inProduction: Environment = {
  NODE_ENV: 'production',
  PUBLIC_URL,
  PIPIT_KEYS: `test:${Buffer.alloc(32, 7).toString('base64')}`,
  // The phones of these tests send faster than a person can.
  PIPIT_MESSAGES_A_MINUTE: '1000',
  PIPIT_MESSAGES_A_SECOND: '10000',
  PIPIT_SAME_TEXT_SECONDS: '0',
};

/** The same with the twilio-compatible gateway there. */
export function settingsWith(gatewayUrl: string): Environment {
  return {
    ...inProduction,
    SMS_ACCOUNT: ACCOUNT,
    SMS_TOKEN: AUTH_TOKEN,
    SMS_FROM: NUMBER_OF_OURS,
    SMS_API: gatewayUrl,
    USSD_SECRET: SECRET,
  };
}

export interface ServerProcess extends StartedProcess {
  readonly url: string;
}

const fromSource: readonly string[] = ['--import', 'tsx', 'src/cli/pipit.ts'];

/** Starts the command in a process of its own; nothing of this process's settings goes with it. */
export async function startServerProcess(environment: Environment, command = fromSource): Promise<ServerProcess> {
  const { PATH = '', HOME = '' } = process.env;
  const started = await startProcess(process.execPath, [...command, 'serve'], {
    cwd: root,
    // The system picks a port: one that was free a moment ago may be taken by now.
    env: { PATH, HOME, ...environment, PORT: '0' },
    sign: 'pipit is listening',
    remedy: 'Run npm install.',
  });
  const url = /"url":"([^"]+)"/.exec(started.said)?.[1];
  if (url === undefined) throw new Error(`The server did not say where it listens:\n${started.said}`);
  return { ...started, url };
}

/** Starts `pipit work` in a process of its own. */
export function startWorkProcess(environment: Environment, command = fromSource): Promise<StartedProcess> {
  const { PATH = '', HOME = '' } = process.env;
  return startProcess(process.execPath, [...command, 'work'], {
    cwd: root,
    env: { PATH, HOME, ...environment },
    sign: 'pipit is at work',
    remedy: 'Run npm install.',
  });
}

export interface ServerHere {
  readonly url: string;
  stop(): Promise<void>;
}

/** Serves within this process, on a port that the system picks unless the environment names one. */
export async function startServerHere(environment: Environment): Promise<ServerHere> {
  const read = readConfig({ PORT: '0', ...environment }, root);
  if (read.kind === 'refused') throw new Error(read.faults.join('\n'));
  const serving = await serve(read.config);
  return { url: serving.url, stop: () => serving.close() };
}
