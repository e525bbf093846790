// `pipit work`: does what is due and opens no door. Any number of these may run beside any number of `pipit serve`.

import pino from 'pino';
import type { Config } from './config.ts';
import { keepWorking } from './keep-working.ts';
import { openProgramme } from './programme.ts';

export interface AtWork {
  close(): Promise<void>;
}

/** Errors: what stops the start, each fault with its remedy, as one Error. */
export async function work(config: Config): Promise<AtWork> {
  const log = pino();
  const programme = await openProgramme(config, log, () => working.wake());
  const working = keepWorking(() => programme.application.sendDue(), log);
  programme.gateway.smpp?.open();
  working.wake();
  log.info({ version: programme.published.current().published.version }, 'pipit is at work');
  return {
    close: async () => {
      await working.stop();
      await programme.close();
    },
  };
}
