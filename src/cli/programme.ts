// What a process that serves or works has open: the published files, the stores, the living roster, and the application over them.
// Next: serve.ts, which adds the doors; work.ts, which only does what is due.

import type { DoorLog } from '../channels/door.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import { type Application, buildApplication, type Log, openStores, type Stores } from './application.ts';
import type { Config } from './config.ts';
import { importWhenEmpty } from './first-roster.ts';
import { type Gateway, openGateway } from './gateway.ts';
import { type LivePublished, openLivePublished } from './live-published.ts';
import { type LiveRoster, openLiveRoster } from './live-roster.ts';
import { faultsOfServing } from './serving-faults.ts';

/** How soon a roster that was imported and a set that was published are taken over. */
const lookingPauseMilliseconds = 2_000;

export interface Programme {
  readonly published: LivePublished;
  readonly stores: Stores;
  readonly roster: LiveRoster;
  readonly screen: ScreenLimit;
  readonly application: Application;
  readonly gateway: Gateway;
  close(): Promise<void>;
}

/**
 * Opens everything that stands behind the doors.
 *
 * Takes    wake: called when a message may have left something to do.
 * Errors   what stops the start, each fault with its remedy, as one Error; nothing stays open.
 */
export async function openProgramme(config: Config, log: DoorLog, wake: () => void): Promise<Programme> {
  const faults = faultsOfServing(config);
  if (faults.length > 0) throw new Error(`Not started:\n- ${faults.join('\n- ')}`);
  const { REDIS_URL: redisUrl, DATABASE_URL: databaseUrl, PIPIT_DATA: data, PIPIT_KEYS: keys } = config;
  const stores = await openStores({ redisUrl, databaseUrl, data, keys });
  const { roster, published } = await livingFrom(stores, config, log);
  const looking = setInterval(() => void Promise.all([roster.refresh(), published.refresh()]), lookingPauseMilliseconds);
  const screen = { gsm7: config.PIPIT_SCREEN, ucs2: config.PIPIT_SCREEN_16_BIT };
  const gateway = openGateway(config, log);
  const application = buildApplication({
    stores,
    roster,
    published: published.current,
    send: gateway.send,
    screen,
    sameTextMilliseconds: config.PIPIT_SAME_TEXT_SECONDS * 1_000,
    pinMilliseconds: config.PIPIT_PIN_MINUTES * 60_000,
    now: Date.now,
    log,
    wakeSender: wake,
  });
  if (config.PIPIT_DEVELOPMENT)
    log.warn({}, 'DEVELOPMENT: signatures and secrets are not checked, and texts go to the terminal. Never on a public address.');
  return {
    published,
    stores,
    roster,
    screen,
    application,
    gateway,
    close: async () => {
      clearInterval(looking);
      await gateway.close();
      await stores.end();
    },
  };
}

/** Errors: no roster or nothing published can be had; the stores are closed again. */
async function livingFrom(stores: Stores, config: Config, log: Log): Promise<Pick<Programme, 'roster' | 'published'>> {
  try {
    await importWhenEmpty(stores.roster, config, Date.now(), log);
    return {
      roster: await openLiveRoster({ store: stores.roster, log }),
      published: await openLivePublished({ store: stores.publications, config, log }),
    };
  } catch (error) {
    await stores.end();
    throw error;
  }
}
