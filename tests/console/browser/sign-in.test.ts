// Signing in as a person does it, with a browser on a server of its own.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { accessFaults, keepPicture, scrollsSideways } from '../../support/browser.ts';
import { coordinator, startConsole, type TestConsole } from '../../support/console.ts';

let pages: TestConsole;
beforeAll(async () => {
  pages = await startConsole();
});
afterAll(async () => {
  await pages?.stop();
});

it('asks whoever is not signed in, and goes on to the page that was asked for', async () => {
  const stranger = await pages.stranger();
  await stranger.goto(`${pages.url}/account`);
  expect(stranger.url()).toBe(`${pages.url}/sign-in?to=${encodeURIComponent('/account')}`);
  expect(await accessFaults(stranger)).toEqual([]);
  const page = await pages.open(coordinator, '/account', { viewport: { width: 360, height: 740 } });
  expect(await page.textContent('.who span')).toContain(coordinator.name);
  expect(await accessFaults(page)).toEqual([]);
  expect(await scrollsSideways(page)).toBe(false);
  await keepPicture(page, 'account-narrow');
});
