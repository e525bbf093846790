// The console on a server of its own, for tests with a browser: development settings, the demo roster, an embedded database in memory,
// where it is day, the scripts built from the source, and accounts to sign in with. Next: browser.ts.

import { execFileSync } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { listen } from '../../src/channels/listen.ts';
import { buildServer } from '../../src/channels/server.ts';
import { readConfig } from '../../src/cli/config.ts';
import { openConsole } from '../../src/cli/console.ts';
import { openProgramme, type Programme } from '../../src/cli/programme.ts';
import { root as consolePath } from '../../src/console/route.ts';
import type { Account } from '../../src/conversation/accounts.ts';
import { hashPassword } from '../../src/conversation/password.ts';
import { openBrowser } from './browser.ts';
import { temporaryFolder } from './temporary-folder.ts';

export interface TestConsole {
  /** Of the console's first page. */
  readonly url: string;
  /** What stands behind it: stores, what is in force, the application. */
  readonly programme: Programme;
  /** A page in which this account is signed in, at this path of the console. The first call makes the account and signs in. */
  open(account: Account, path: string, options?: BrowserContextOptions): Promise<Page>;
  /** A page in which nobody is signed in, nowhere yet. */
  stranger(): Promise<Page>;
  stop(): Promise<void>;
}

export const coordinator: Account = { name: 'rose', role: 'coordinator', phone: null };

/** A check of all files takes some seconds, and more on a busy machine. */
const patienceMilliseconds = 90_000;
const password = 'only for a test of pages';
const top = fileURLToPath(new URL('../..', import.meta.url));
const silent = { info: () => {}, warn: () => {}, error: () => {} };

export async function startConsole(env: Readonly<Record<string, string>> = {}): Promise<TestConsole> {
  execFileSync(process.execPath, ['src/console/client/bundle.mjs'], { cwd: top });
  const roster = rosterByDay();
  const settings = { PIPIT_DATA: 'memory', PIPIT_DEVELOPMENT: '1', PORT: '0', PIPIT_SAME_TEXT_SECONDS: '0', PIPIT_ROSTER: roster.path };
  const read = readConfig({ ...settings, ...env }, top);
  if (read.kind !== 'config') throw new Error(read.faults.join('\n'));
  const programme = await openProgramme(read.config, silent, () => {});
  const pages = openConsole(read.config, programme, silent);
  const server = await listen(
    buildServer({ receive: programme.application.receive, log: silent, mounts: { [consolePath]: pages.handler } }),
    0,
  );
  const url = `${server.url}${consolePath}`;
  let opened: Promise<Browser> | undefined;
  const browser = (): Promise<Browser> => {
    opened ??= openBrowser();
    return opened;
  };
  const signedIn = new Map<string, Awaited<ReturnType<BrowserContext['storageState']>>>();
  return {
    url,
    programme,
    async open(account, path, options) {
      const known = signedIn.get(account.name);
      if (known === undefined)
        await programme.stores.accounts.save({ ...account, passwordHash: await hashPassword(password) }, 'a test', Date.now());
      const context = await (await browser()).newContext({ ...options, ...(known === undefined ? {} : { storageState: known }) });
      context.setDefaultTimeout(patienceMilliseconds);
      const page = await context.newPage();
      await page.goto(`${url}${path}`);
      if (known !== undefined) return page;
      await page.fill('input[name=name]', account.name);
      await page.fill('input[name=password]', password);
      await page.click('main button[type=submit]');
      await page.waitForSelector('.who');
      signedIn.set(account.name, await context.storageState());
      return page;
    },
    stranger: async () => (await browser()).newPage(),
    async stop() {
      await (await opened)?.close();
      await server.close();
      await pages.end();
      await programme.close();
      roster.remove();
    },
  };
}

/** The demo roster in a zone where it is late in the morning, whenever the tests run, and on a day that all shifts are on. */
function rosterByDay(): ReturnType<typeof temporaryFolder> {
  const folder = temporaryFolder();
  cpSync(join(top, 'flows/demo'), folder.path, { recursive: true });
  const rewrite = (name: string, change: (text: string) => string): void =>
    writeFileSync(join(folder.path, name), change(readFileSync(join(folder.path, name), 'utf8')));
  const ahead = 11 - new Date().getUTCHours();
  // The sign in these names is the other way round: it says how far Greenwich is ahead.
  const zone = ahead === 0 ? 'Etc/GMT' : `Etc/GMT${ahead > 0 ? '-' : '+'}${Math.abs(ahead)}`;
  rewrite('facilities.csv', (text) => text.replaceAll(/[A-Z]\w+\/[A-Z]\w+/g, zone));
  rewrite('rota.csv', (text) => text.replaceAll(/mon-fri|mon wed fri/g, 'daily'));
  return folder;
}
