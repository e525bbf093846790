// Before the first message is served: a register that knows nobody gets its people from the folder. In production never from the
// demo, whose people are invented. Later the folder is not looked at again: `pipit roster import` changes the roster.

import type { RosterStore } from '../register/roster.ts';
import type { Config } from './config.ts';
import { loadRoster } from './load-roster.ts';

export async function importWhenEmpty(
  store: Pick<RosterStore, 'lastImport' | 'importFirst'>,
  config: Pick<Config, 'roster' | 'PIPIT_ROSTER' | 'isProduction'>,
  now: number,
  log: { readonly info: (about: object, what: string) => void },
): Promise<void> {
  if ((await store.lastImport()) > 0) return;
  if (config.isProduction && config.PIPIT_ROSTER === undefined)
    throw new Error(
      'The register holds nobody yet, and the demo roster holds invented people. Run "pipit roster import FOLDER", or set PIPIT_ROSTER to the folder of yours.',
    );
  const data = loadRoster(config.roster);
  const isImported = await store.importFirst(data, 'pipit serve', now);
  if (isImported) log.info({ folder: config.roster, people: data.people.length }, 'the first roster was imported');
}
