// Joins the console: accounts and drafts from the register, what is in force, the workshop, the roster, and the application that its
// nurses answer through. Next: src/console/console.ts, what is served.

import { randomBytes } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { buildConsole } from '../console/console.ts';
import type { ConsoleParts } from '../console/ports.ts';
import { readWords } from '../console/words.ts';
import type { Config } from './config.ts';
import { sourcesIn } from './load-files.ts';
import { filesOf } from './load-published.ts';
import type { Programme } from './programme.ts';
import { type Author, type PublishingParts, publishFiles, undo } from './publishing.ts';
import { openWorkshop } from './workshop.ts';

const root = new URL('../../', import.meta.url);
const tokenBytes = 32;

export interface Console {
  readonly handler: ReturnType<typeof buildConsole>;
  end(): Promise<void>;
}

export function openConsole(config: Config, programme: Programme, log: ConsoleParts['log']): Console {
  const { stores, published, roster, application, screen } = programme;
  const workshop = openWorkshop(screen);
  const publishing: PublishingParts = { store: stores.publications, prove: workshop.check, folder: () => filesOf(config) };
  const authored = (author: { readonly by: string; readonly note: string | null }): Author => ({ ...author, at: Date.now() });
  const seen = async <Outcome>(outcome: Promise<Outcome>): Promise<Outcome> => {
    const done = await outcome;
    // Whoever published sees it on the next page; other processes take it over within seconds.
    await published.refresh();
    return done;
  };
  const words = fileURLToPath(new URL('locales/console/en', root));
  return {
    handler: buildConsole({
      accounts: stores.accounts,
      drafts: stores.drafts,
      publications: stores.publications,
      publishing: {
        publish: (files, after, author) => seen(publishFiles(files, after, authored(author), publishing)),
        undo: (after, author, to) => seen(undo(authored(author), publishing, to, after)),
      },
      watch: stores.watch,
      workshop,
      inUse: published.current,
      roster,
      rosterEdits: {
        read: stores.roster.read,
        import: async (data, by, before) => {
          const changes = await stores.roster.importAfter(before, data, by, Date.now());
          await roster.refresh();
          return changes?.length ?? null;
        },
      },
      receive: application.receive,
      say: readWords(sourcesIn(words, 'locales/console/en'), 'en'),
      now: Date.now,
      newToken: () => randomBytes(tokenBytes).toString('base64url'),
      assets: fileURLToPath(new URL('dist/console/client', root)),
      isSecure: config.PUBLIC_URL?.startsWith('https:') ?? false,
      log,
    }),
    end: () => workshop.end(),
  };
}
