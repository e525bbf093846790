// Server processes that are killed at moments drawn from a seed and replaced at once. One piece in a few that pass a relay
// is the moment: the process it belongs to dies just before the piece goes on, which then never arrives, or just after.
// Next: end-to-end-relay.ts.

import { seededRandom } from './end-to-end-seed.ts';
import { type ServerProcess, startServerProcess } from './end-to-end-server.ts';
import type { Stack } from './end-to-end-stack.ts';

export interface KilledServers {
  /** Address of a server that is alive, when there is one. */
  url(): Promise<string>;
  /** Kills still to come. */
  remaining(): number;
  /** Resolves when every text to send has been sent. */
  settle(): Promise<void>;
}

/** How many processes serve side by side, and beyond how many pieces the next kill may not lie. */
const sideBySide = 2;
const farthestPiece = 60;

export async function startKilledServers(stack: Stack, command: string, seed: number, kills: number): Promise<KilledServers> {
  const random = seededRandom(seed);
  const alive: ServerProcess[] = [];
  let starting: Promise<unknown> = Promise.resolve();
  let remaining = kills;
  let piecesLeft = 0;
  let turn = 0;

  const drawMoment = (): void => {
    piecesLeft = 1 + Math.floor(random() * farthestPiece);
  };
  const startOne = async (): Promise<void> => {
    const { environment, relays } = await stack.anotherWay();
    const server = await startServerProcess(environment, [command]);
    const kill = (): void => {
      alive.splice(alive.indexOf(server), 1);
      void server.end('SIGKILL');
      starting = Promise.all([starting, startOne()]);
    };
    for (const relay of Object.values(relays)) {
      relay.onPiece = () => {
        piecesLeft -= 1;
        if (piecesLeft > 0 || remaining === 0 || !alive.includes(server)) return;
        remaining -= 1;
        drawMoment();
        if (random() < 0.5) return queueMicrotask(kill);
        for (const one of Object.values(relays)) one.hang();
        kill();
      };
    }
    alive.push(server);
  };

  drawMoment();
  await Promise.all(Array.from({ length: sideBySide }, startOne));

  return {
    async url() {
      for (;;) {
        turn += 1;
        const server = alive[turn % Math.max(alive.length, 1)];
        if (server !== undefined) return server.url;
        await starting;
      }
    },
    remaining: () => remaining,
    async settle() {
      await starting;
      // Those who live finish what they send; what is still claimed then was claimed by the dead.
      await Promise.all(alive.map((server) => server.end('SIGTERM')));
      await stack.register.endClaims();
      await startOne();
      for (let isSent = false; !isSent; ) isSent = (await stack.register.allTexts()).every(({ state }) => state === 'sent');
      await alive.at(-1)?.end('SIGTERM');
    },
  };
}
