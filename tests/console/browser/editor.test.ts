// The coordinator's editor as she uses it, in a browser: a limit is moved and the phone answers otherwise, a band is broken and is shown
// where it is, and publishing it is refused. Each page is read by axe, and fits a phone of 360 pixels.

import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { accessFaults, keepPicture, scrollsSideways } from '../../support/browser.ts';
import { coordinator, startConsole, type TestConsole } from '../../support/console.ts';

const limits = 'flows/protocol/limits.yaml';
const findings = 'flows/protocol/findings.yaml';

// Several checks of all files, each of some seconds on a machine that is busy.
vi.setConfig({ testTimeout: 180_000 });

let pages: TestConsole;
beforeAll(async () => {
  pages = await startConsole();
});
afterAll(async () => {
  await pages?.stop();
});

const open = (path: string, options?: BrowserContextOptions): Promise<Page> => pages.open(coordinator, path, options);
const published = (file: string): string => pages.programme.published.current().files.find(({ name }) => name === file)?.text ?? '';
const drafted = async (file: string): Promise<string | undefined> =>
  (await pages.programme.stores.drafts.read()).find(({ name }) => name === file)?.text;

/** The editor with the cursor in the line that holds `part`, once the check of the text has come back. */
async function openAt(file: string, part: string, after = 0): Promise<Page> {
  const line =
    published(file)
      .split('\n')
      .findIndex((one) => one.includes(part)) +
    1 +
    after;
  const page = await open(`/edit?file=${file}&line=${line}`);
  await page.waitForSelector('.cm-content:focus');
  await page.waitForSelector('#edit-checked:not([aria-busy]) > p');
  return page;
}

async function writeLine(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+End');
  await page.keyboard.type(text);
}

async function send(page: Page, ...texts: readonly string[]): Promise<string> {
  for (const text of texts) {
    const before = await page.locator('.talk li').count();
    await page.fill('#phone-input', text);
    await page.press('#phone-input', 'Enter');
    await page.waitForSelector(`.talk li:nth-child(${before + 1})`);
  }
  return (await page.textContent('.talk li:last-child .talk-reply')) ?? '';
}

describe('the editor', () => {
  it('has the phone answer by the text as it is written, and says what the check finds', async () => {
    const page = await openAt(limits, 'fast-breathing:', 1);
    expect(await send(page, 'BABY', '1 0430 39 3100', '0', '0', '0', '36.8', '59')).toContain('Good, all normal.');
    await page.focus('.cm-content');
    await writeLine(page, 'from: 58');
    await page.locator('.talk li:last-child .talk-reply').filter({ hasNotText: 'all normal' }).waitFor();
    expect(await page.textContent('.talk-cost')).toMatch(/7 texts in, 7 segments out/);
    await writeLine(page, 'from: 64');
    await page.waitForSelector('#edit-checked .is-error');
    expect(await page.textContent('#edit-checked')).toContain('flows/reference-cases/');
    expect(await accessFaults(page)).toEqual([]);
    await keepPicture(page, 'editor-limit');
    await page.context().close();
  });

  it('plays by call as well, dialled again where it was left', async () => {
    const page = await openAt(limits, 'limits:');
    await page.selectOption('#phone-channel', 'ussd');
    await page.waitForSelector('.talk li');
    await send(page, '1');
    await page.click('#phone-dial');
    await page.waitForSelector('.talk li:nth-child(3)');
    expect(await page.textContent('.talk-cost')).toContain('3 screens');
    await page.click('#phone-again');
    await page.waitForSelector('.talk li:nth-child(3)', { state: 'detached' });
    await page.context().close();
  });

  it('shows a broken band where it is, greys the phone, saves it as a draft, and publishing is refused', async () => {
    const page = await openAt(findings, '{ id: fever, from: 38.0');
    await send(page, 'BABY');
    await page.focus('.cm-content');
    await writeLine(page, '- { id: fever, from: hot, rows: [RISK-02] }');
    const fault = page.locator('#edit-checked > .diagnostics li.is-error', { hasText: '"hot" is not a number.' });
    await fault.waitFor();
    const line =
      published(findings)
        .split('\n')
        .findIndex((one) => one.includes('{ id: fever, from: 38.0')) + 1;
    expect(await fault.locator('a').textContent()).toBe(`line ${line}`);
    await page.waitForSelector('.cm-lint-marker-error');
    await page.hover('.cm-lint-marker-error');
    await page.waitForSelector('.cm-said dl');
    await page.waitForSelector('.phone-talk.is-stale .talk li');
    expect(await accessFaults(page)).toEqual([]);
    await keepPicture(page, 'editor-fault');

    await page.press('.cm-content', 'Control+s');
    await page.waitForSelector('#edit-state >> text=Saved in the draft');
    expect(await drafted(findings)).toContain('from: hot');
    await page.goto(`${pages.url}/changes`);
    expect(await page.isDisabled('text=Publish the draft')).toBe(true);
    // Whoever sends the form all the same is refused by what publishes.
    await page.evaluate("document.querySelector('form.publish').submit()");
    await page.waitForSelector('text=Nothing was published: check refuses it.');
    expect(await pages.programme.stores.publications.last()).toBe(0);
    await page.goto(`${pages.url}/edit?file=${findings}`);
    await page.click('text=Throw away the draft of this file');
    await page.waitForSelector('.bench');
    expect(await drafted(findings)).toBeUndefined();
    await page.context().close();
  });

  it('is left by Esc and Tab, and offers what may stand at the cursor', async () => {
    const page = await openAt('flows/recheck.yaml', 'steps:', 1);
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('twi');
    await page.waitForSelector('.cm-tooltip-autocomplete li[aria-selected] >> text=twins');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Tab');
    expect(await page.evaluate("document.activeElement.closest('.cm-editor') === null")).toBe(true);
    await page.context().close();
  });
});

describe('two who write at once', () => {
  it('lose nothing: the second is shown both, and may save hers over it', async () => {
    const page = await openAt('flows/protocol/needs.yaml', 'needs:');
    const theirs = published('flows/protocol/needs.yaml').replace('needs:', '# of another\nneeds:');
    await pages.programme.stores.drafts.save({ name: 'flows/protocol/needs.yaml', text: theirs, by: 'maya', at: 0 }, 0);
    await page.keyboard.type('# of rose\n');
    await page.click('text=Save the draft');
    await page.waitForSelector('text=maya saved this file while you were writing');
    expect(await page.textContent('ins >> text=# of rose')).toBeTruthy();
    expect(await page.textContent('del >> text=# of another')).toBeTruthy();
    expect(await page.inputValue('.problem textarea')).toBe(theirs);
    expect(await accessFaults(page)).toEqual([]);
    await page.waitForSelector('.cm-line >> text=# of rose');
    await page.click('text=Save the draft');
    await page.waitForSelector('#edit-state >> text=Saved in the draft');
    expect(await drafted('flows/protocol/needs.yaml')).toContain('# of rose');
    await page.context().close();
  });
});

describe('the pages', () => {
  it.each([
    ['/flows', 'flows', 'light'],
    ['/flows/map?flow=first-day-exam', 'map', 'dark'],
    [`/edit?file=${limits}`, 'edit', 'dark'],
  ] as const)('at %s fit 360 pixels and satisfy axe', async (path, name, colorScheme) => {
    const page = await open(path, { viewport: { width: 360, height: 740 }, colorScheme });
    expect(await scrollsSideways(page)).toBe(false);
    expect(await accessFaults(page)).toEqual([]);
    await keepPicture(page, `${name}-narrow`);
    await page.setViewportSize({ width: 1200, height: 800 });
    expect(await accessFaults(page)).toEqual([]);
    await keepPicture(page, `${name}-wide`);
    await page.context().close();
  });

  it('save a text without any script', async () => {
    const page = await open('/edit?file=flows/protocol/sources.yaml', { javaScriptEnabled: false });
    const text = published('flows/protocol/sources.yaml');
    expect(await page.inputValue('#edit-text')).toBe(text);
    await page.fill('#edit-text', `${text}# by hand\n`);
    await page.click('text=Save the draft');
    expect(await page.textContent('.done')).toContain('Saved in the draft');
    expect(await drafted('flows/protocol/sources.yaml')).toBe(`${text}# by hand\n`);
    await page.click('text=Check the saved draft');
    expect(await page.textContent('#edit-checked')).toContain('The check finds nothing wrong.');
    await page.context().close();
  });

  it('load the editor only where something is edited', async () => {
    const page = await open('/flows');
    expect(await page.locator('script').count()).toBe(0);
    await page.context().close();
  });
});
