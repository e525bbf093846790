// Servers that only answer and processes that only do what is due, killed with the stores behind them at moments drawn from a
// seed, and replaced at once. What dies just before a piece goes on never has it, or its answer; just after, it is on its way.
// Next: end-to-end-kill-moments.ts, end-to-end-killed-stores.ts, end-to-end-relay.ts.

import type { Moments } from './end-to-end-kill-moments.ts';
import type { KilledStores } from './end-to-end-killed-stores.ts';
import { type Environment, type ServerProcess, startServerProcess, startWorkProcess } from './end-to-end-server.ts';
import type { Stack, Way } from './end-to-end-stack.ts';
import type { StartedProcess } from './started-process.ts';

export interface KilledProcesses {
  /** Address of a server that is alive, when there is one. */
  url(): Promise<string>;
  /** After the last kill: what the dead had claimed is free again, and one process is at work. */
  tidyUp(): Promise<void>;
  end(): Promise<void>;
  /** What those said last that ended though nobody killed them. */
  endedByThemselves(): readonly string[];
}

/** Texts from this number come from a process at work; servers send only what they cannot write down. */
export const NUMBER_OF_WORK = '+254700000998';
const roles = {
  server: { settings: { PIPIT_WORK: '0' } },
  work: { settings: { SMS_FROM: NUMBER_OF_WORK } },
} as const;
type Role = keyof typeof roles;
const sideBySide = 2;
/** Characters of what a process said before it ended. */
const lastWords = 3_000;

export async function startKilledProcesses(
  stack: Stack,
  command: string,
  moments: Moments,
  stores: KilledStores,
): Promise<KilledProcesses> {
  const servers: ServerProcess[] = [];
  const workers: StartedProcess[] = [];
  const endedByThemselves: string[] = [];
  let starting: Promise<unknown> = Promise.resolve();
  let turn = 0;

  /** A store may die under a process that starts; it ends then, and another one is started. */
  const startOne = <P extends StartedProcess>(role: Role, alive: P[], start: (environment: Environment) => Promise<P>): Promise<void> =>
    stores.despiteKills(async () => {
      const way = await stack.anotherWay();
      const one = await start({ ...way.environment, ...roles[role].settings });
      alive.push(one);
      const isAlive = (): boolean => alive.includes(one);
      const replace = (): void => {
        alive.splice(alive.indexOf(one), 1);
        void one.end('SIGKILL');
        starting = Promise.all([starting, startOne(role, alive, start)]);
      };
      void one.ended.then((said) => {
        if (!isAlive()) return;
        endedByThemselves.push(`${role}: ${said.slice(-lastWords)}`);
        replace();
      });
      doom(role, way, isAlive, replace);
    });

  const doom = (role: Role, { relays }: Way, isAlive: () => boolean, kill: () => void): void => {
    for (const [name, relay] of Object.entries(relays)) {
      relay.onPiece = () => {
        if (!isAlive()) return;
        const own = moments.pass(role);
        if (own === 'after') queueMicrotask(() => isAlive() && kill());
        if (own === 'before') {
          for (const one of Object.values(relays)) one.hang();
          kill();
        }
        if (own !== null || name === 'gateway') return;
        const store = name as 'redis' | 'postgres';
        const when = stores.isUp(store) ? moments.pass(store) : null;
        if (when !== null) stores.kill(store, relay, when);
      };
    }
  };
  const startServer = (): Promise<void> => startOne('server', servers, (environment) => startServerProcess(environment, [command]));
  const startWork = (): Promise<void> => startOne('work', workers, (environment) => startWorkProcess(environment, [command]));
  const endAll = (processes: readonly StartedProcess[]): Promise<unknown> => Promise.all(processes.map((one) => one.end('SIGTERM')));

  await startServer();
  await Promise.all(Array.from({ length: sideBySide }, startWork).concat(Array.from({ length: sideBySide - 1 }, startServer)));

  return {
    async url() {
      for (;;) {
        turn += 1;
        const server = servers[turn % Math.max(servers.length, 1)];
        if (server !== undefined) return server.url;
        await starting;
      }
    },
    async tidyUp() {
      await starting;
      // Those who live finish what they send; what is still claimed then was claimed by the dead.
      await endAll(workers.splice(0));
      await stores.despiteKills(() => stack.register.endClaims());
      await startWork();
    },
    async end() {
      await endAll([...servers.splice(0), ...workers.splice(0)]);
    },
    endedByThemselves: () => endedByThemselves,
  };
}
