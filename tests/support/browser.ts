// A browser for tests of pages: Debian's Chromium, without a window, and with nothing that looks outside. Where it is missing the
// test fails: a page that nobody looked at is not tested. Next: console.ts, the server that it is pointed at.

import { existsSync, mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import axe from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';

const executablePath = '/usr/bin/chromium';
const screens = fileURLToPath(new URL('../../coverage/screens/', import.meta.url));

export async function openBrowser(): Promise<Browser> {
  if (!existsSync(executablePath))
    throw new Error('There is no Chromium. Install it (Debian: apt-get install -y chromium) and run the tests again.');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** What axe finds wrong with the page as it stands: the rule, and where. */
export async function accessFaults(page: Page): Promise<string[]> {
  // Runs in the page beside its own policy, which allows no script of others.
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { violations } = await (globalThis as unknown as { axe: typeof import('axe-core') }).axe.run();
    return violations.flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id} ${target.join(' ')}: ${failureSummary}`));
  });
}

/** True: the page has to be pushed sideways to be read. */
export function scrollsSideways(page: Page): Promise<boolean> {
  return page.evaluate('document.documentElement.scrollWidth > document.documentElement.clientWidth') as Promise<boolean>;
}

/** Keeps a picture for whoever wants to look: coverage/screens/<name>.png. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  mkdirSync(screens, { recursive: true });
  await page.screenshot({ path: `${screens}${name}.png`, fullPage: true });
}
