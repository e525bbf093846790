// Redis and PostgreSQL that are killed and started again where they stood. Next: end-to-end-killed-processes.ts, which says when.

import type { When } from './end-to-end-kill-moments.ts';
import type { Relay } from './end-to-end-relay.ts';
import type { Stack } from './end-to-end-stack.ts';

export type StoreName = keyof Stack['stores'];

export interface KilledStores {
  /** Kills it at a piece that passes this relay. */
  kill(store: StoreName, relay: Relay, when: When): void;
  isUp(store: StoreName): boolean;
  /** Resolves when both stand. */
  bothUp(): Promise<void>;
  /** Does the work again when a store died under it. */
  despiteKills<T>(work: () => Promise<T>): Promise<T>;
}

export function killedStores({ redis, postgres }: Stack['stores'], random: () => number): KilledStores {
  const restart: Readonly<Record<StoreName, () => Promise<void>>> = {
    redis: () => redis.killAndRestart(),
    postgres: () => postgres.killAndRestart(random() < 0.5 ? 'SIGQUIT' : 'SIGKILL'),
  };
  const restarting = new Map<StoreName, Promise<void>>();
  let kills = 0;

  const bothUp = async (): Promise<void> => {
    while (restarting.size > 0) await Promise.all(restarting.values());
  };
  const restartAt = async (store: StoreName, relay: Relay, when: When): Promise<void> => {
    if (when === 'before') relay.hang();
    // After this turn of the loop what passed is on its way.
    else await Promise.resolve();
    await restart[store]();
    if (when === 'before') relay.cut();
    restarting.delete(store);
  };
  return {
    kill(store, relay, when) {
      kills += 1;
      restarting.set(store, restartAt(store, relay, when));
    },
    isUp: (store) => !restarting.has(store),
    bothUp,
    async despiteKills(work) {
      for (;;) {
        await bothUp();
        const before = kills;
        try {
          return await work();
        } catch (error) {
          if (kills === before) throw error;
        }
      }
    },
  };
}
