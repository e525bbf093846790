// A coordinator words a question otherwise, publishes it while a worker is in an examination, and takes it back; and the pages that she
// does it with, read by a screen reader's rules and on a narrow screen.

import type { Page } from 'playwright-core';
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

const narrow = { viewport: { width: 360, height: 740 } };
const titleOf = (tag: string): string => `textarea[name="now:${tag}:ask.head-eyes-mouth.title"]`;

/** A worker's phone: what she sends, and what comes back. */
function phone(worker: string): (text: string) => Promise<string> {
  let sent = 0;
  return async (text) => {
    sent += 1;
    return (await pages.programme.application.receive({ channel: 'sms', from: worker, id: `${worker} ${sent}`, text })).text;
  };
}

async function press(page: Page, button: string): Promise<void> {
  await Promise.all([page.waitForEvent('load'), page.click(button)]);
}

async function isFine(page: Page, name: string): Promise<void> {
  expect(await accessFaults(page)).toEqual([]);
  expect(await scrollsSideways(page)).toBe(false);
  await keepPicture(page, name);
}

/** From danger to the region of the eyes, answering none. */
async function untilEyes(send: (text: string) => Promise<string>, title: string): Promise<void> {
  let reply = '';
  for (let asked = 0; asked < 20 && !reply.includes(title); asked += 1) reply = await send('0');
  expect(reply).toContain(title);
}

it('publishes other words for a question while an examination runs, goes on with it, and takes them back', async () => {
  const send = phone('+254700555101');
  await send('BABY 1 0430 39 3100');
  for (const none of ['0', '0', '0', '36.8 44 132']) await send(none);

  const page = await pages.open(coordinator, '/wording?search=ask.head-eyes-mouth.title');
  await page.fill(titleOf('en'), 'HEAD, BOTH EYES.');
  await press(page, 'button.main');
  expect(await page.textContent('.done')).toContain('One text is saved');
  await isFine(page, 'wording-drafted');

  await page.goto(`${pages.url}/changes`);
  expect(await page.textContent('ul.changes')).toContain('ask.head-eyes-mouth.title');
  expect(await page.textContent('h2:text("What an examination costs") + p')).toMatch(/as many texts, segments and screens as before/);
  await page.click('details summary');
  expect(await page.textContent('ins')).toContain('HEAD, BOTH EYES.');
  await isFine(page, 'changes-drafted');
  await page.fill('input[name=note]', 'Clearer');
  await press(page, 'form.publish button');
  expect(await page.textContent('.done')).toContain('is in force');
  expect(await page.textContent('tbody tr')).toContain('Clearer');
  await untilEyes(send, 'HEAD, BOTH EYES.');

  await press(page, 'form[action$="/undo"] button');
  expect(await page.textContent('tbody tr')).toContain('Brings back number 1');
  expect(await send('MENU')).not.toBe('');
  expect(await send('GO ON')).toContain('HEAD, EYES, feel PALATE');
  expect(await send('GO ON')).not.toContain('BOTH EYES');
  await page.context().close();
}, 240_000);

it('says how much room is left while she types, in the alphabet of the language', async () => {
  const page = await pages.open(coordinator, '/wording?search=signs.looks-ill&lang-hi=on');
  const field = page.locator('textarea[name="now:en:signs.looks-ill"]');
  const meter = page.locator('[id="en:signs.looks-ill:said"] .meter').first();
  await field.fill('a'.repeat(56));
  expect(await meter.textContent()).toMatch(/Too long by 1: 56 of 55/);
  expect(await field.getAttribute('aria-invalid')).toBe('true');
  await field.fill('ill');
  expect(await meter.textContent()).toBe('3 of 55 characters');
  expect(await field.getAttribute('aria-invalid')).toBeNull();
  await field.fill('ill {');
  expect(await meter.textContent()).toContain('"{"');
  await page.context().close();
});

it.each(['/wording?lang-hi=on&lang-sw=on', '/changes', '/roster', '/audit'])(
  'can be read on a narrow screen, in the dark, and by a screen reader: %s',
  async (path) => {
    for (const options of [{ ...narrow, colorScheme: 'dark' as const }, {}]) {
      const page = await pages.open(coordinator, path, options);
      for (const one of await page.locator('main summary').all()) await one.click();
      await isFine(page, `${path.replace(/\W+/g, '-').slice(1)}-${'viewport' in options ? 'narrow' : 'wide'}`);
      await page.context().close();
    }
  },
);

it('works without scripts: a page of words is saved by its button', async () => {
  const page = await pages.open(coordinator, '/wording?search=signs.looks-ill', { javaScriptEnabled: false });
  await page.fill('textarea[name="now:en:signs.looks-ill"]', 'looks very ill');
  await press(page, 'button.main');
  expect(await page.textContent('.done')).toContain('One text is saved');
  expect(await page.inputValue('textarea[name="now:en:signs.looks-ill"]')).toBe('looks very ill');
  await page.context().close();
});
