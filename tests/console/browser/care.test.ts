// A nurse at the page of alerts while workers text: an alert comes up by itself, is taken, advised on, passed on and closed, and phones
// say so; once with a mouse, once with the keyboard alone. And every page about babies and of the programme, read by axe and on 360 pixels.

import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Account } from '../../../src/conversation/accounts.ts';
import { accessFaults, keepPicture, scrollsSideways } from '../../support/browser.ts';
import { coordinator, startConsole, type TestConsole } from '../../support/console.ts';
import { type ProgrammePhones, phonesOf } from '../../support/programme-phones.ts';

const [akinyi, mercy] = ['+254700555101', '+254700555141'];
const wanjiru: Account = { name: 'wanjiru', role: 'nurse', phone: '+254700555012' };
const narrow = { viewport: { width: 360, height: 740 } };
const njeri: Account = { name: 'njeri', role: 'nurse', phone: '+254700555021' };
const [fit, none, goOn] = ['1', '0', '2'];
/** Of an examination of a girl, and what was given. */
const regions = 10;

let pages: TestConsole;
let phones: ProgrammePhones;
beforeAll(async () => {
  pages = await startConsole();
  phones = phonesOf(pages.programme);
});
afterAll(async () => {
  await pages?.stop();
});

/** A baby with a fit, met by this worker. Returns the code of its alert. */
async function findDanger(worker: string): Promise<string> {
  await phones.send(worker, 'BABY 1 0430 39 3100');
  await phones.send(worker, fit);
  const alerts = await pages.programme.stores.watch.openAlerts(null, 100);
  const newest = alerts.filter((one) => one.worker === worker).sort((a, b) => b.at - a.at)[0];
  if (newest === undefined) throw new Error('A fit raised no alert.');
  return newest.code;
}

const card = (code: string): string => `.card:has(h3:text("${code}"))`;

async function press(page: Page, button: string): Promise<string> {
  await Promise.all([page.waitForEvent('load'), page.click(button)]);
  return (await page.textContent('.done')) ?? '';
}

describe('a nurse at the page of alerts', () => {
  it('sees an alert come up by itself, takes it, advises and closes it, and the worker hears each time', async () => {
    const page = await pages.open(wanjiru, '/');
    expect(await page.textContent('h2')).toBe('0 open alerts');
    const code = await findDanger(akinyi);
    await page.waitForSelector(card(code));
    expect(await page.textContent('h2')).toBe('One open alert');
    expect(await page.textContent('.heard')).toMatch(new RegExp(`^New: Not taken ${code} .*Marula HC$`));
    expect(await page.textContent(card(code))).toMatch(/Not taken.*Marula HC.*fit.*Asked: Nurse Wanjiru\..*Akinyi Odera/);
    expect((await phones.take('+254700555012')).join()).toContain(`${code} URGENT`);

    expect(await press(page, `text=Take ${code}`)).toContain(`${code} is yours`);
    expect(await page.textContent('nav a[aria-current=page]')).toBe('Alerts');
    expect(await page.textContent(card(code))).toMatch(/Taken.*Nurse Wanjiru \(\+254700555012\) has it\./);
    expect(await phones.take(akinyi)).toEqual([expect.stringMatching(`${code}.*Nurse Wanjiru.*\\+254700555012`)]);

    await page.fill(`${card(code)} input[name=words]`, 'skin to skin, send now');
    expect(await press(page, `${card(code)} button[value=advise]`)).toContain('Sent to the worker');
    expect(await phones.take(akinyi)).toEqual([expect.stringContaining(`${code}, Nurse Wanjiru: skin to skin, send now`)]);

    expect(await press(page, `${card(code)} button[value=close]`)).toContain(`${code} closed`);
    expect(await page.textContent('h2')).toBe('0 open alerts');
    expect(await phones.take(akinyi)).toEqual([expect.stringContaining('Nurse Wanjiru has closed the alert')]);
    await page.context().close();
  });

  it('passes an alert on to the next, on whose open page it is then hers', async () => {
    const [first, next] = [await pages.open(wanjiru, '/'), await pages.open(njeri, '/', narrow)];
    const code = await findDanger(akinyi);
    await first.waitForSelector(card(code));
    expect(await press(first, `${card(code)} button[value=pass]`)).toContain(`${code}: Nurse Njeri is asked now`);
    await next.waitForSelector(`${card(code)} >> text=Asked: Nurse Njeri (number 2 to be asked).`);
    expect(await phones.take('+254700555021')).toEqual([expect.stringMatching(`${code} URGENT[^]*No answer: Nurse Wanjiru`)]);
    expect((await phones.take(akinyi)).at(-1)).toContain('Nurse Wanjiru cannot take it. Nurse Njeri is asked now.');
    expect(await accessFaults(next)).toEqual([]);
    expect(await scrollsSideways(next)).toBe(false);
    await keepPicture(next, 'alert-passed-narrow');
    await press(next, `text=Take ${code}`);
    // What she may not do any more is not offered.
    await first.waitForSelector(`${card(code)} >> text=Nurse Njeri (+254700555021) has it.`);
    expect(await first.locator(`${card(code)} button`).count()).toBe(0);
    await press(next, `${card(code)} button[value=close]`);
    await Promise.all([first.context().close(), next.context().close()]);
  });

  it('goes on writing advice while another alert comes up', async () => {
    const page = await pages.open(njeri, '/');
    const code = await findDanger(akinyi);
    await page.waitForSelector(card(code));
    await page.fill(`${card(code)} input[name=words]`, 'keep warm');
    await page.press(`${card(code)} input[name=words]`, 'Tab');
    const other = await findDanger(mercy);
    await page.waitForSelector(card(other));
    expect(await page.inputValue(`${card(code)} input[name=words]`)).toBe('keep warm');
    await Promise.all([page.waitForEvent('load'), page.keyboard.press('Enter')]);
    expect(await page.textContent('.done')).toContain('Sent to the worker');
    expect((await phones.take(akinyi)).at(-1)).toContain(`${code}, Nurse Njeri: keep warm`);
    await page.context().close();
  });

  it('takes an alert with the keyboard alone', async () => {
    const page = await pages.open(njeri, '/');
    const code = await findDanger(akinyi);
    await page.waitForSelector(card(code));
    await page.keyboard.press('Tab');
    expect(await focused(page)).toMatchObject({ text: 'To the content', isSeen: true });
    await page.keyboard.press('Enter');
    const met: string[] = [];
    for (let tabs = 0; tabs < 60 && met.at(-1) !== `Take ${code}`; tabs += 1) {
      await page.keyboard.press('Tab');
      const { text, isSeen, isInContent } = await focused(page);
      expect([text, isSeen, isInContent]).toEqual([text, true, true]);
      met.push(text);
    }
    expect(met.at(-1)).toBe(`Take ${code}`);
    await Promise.all([page.waitForEvent('load'), page.keyboard.press('Enter')]);
    expect(await page.textContent('.done')).toContain(`${code} is yours`);
    await page.context().close();
  });
});

interface Focused {
  readonly text: string;
  /** It lies on the screen, and a line is drawn around it. */
  readonly isSeen: boolean;
  readonly isInContent: boolean;
}

function focused(page: Page): Promise<Focused> {
  return page.evaluate(`(() => {
    const one = document.activeElement;
    const { top, left, bottom, right, width } = one.getBoundingClientRect();
    const { outlineStyle, outlineWidth } = getComputedStyle(one);
    const isOnScreen = top < innerHeight && bottom > 0 && left < innerWidth && right > 0 && width > 0;
    return {
      text: (one.textContent || one.getAttribute('name') || '').trim(),
      isSeen: isOnScreen && outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2,
      isInContent: one.closest('main') !== null,
    };
  })()`) as Promise<Focused>;
}

describe('the pages', () => {
  /** What stands in a path for the code of a baby, and for its id. */
  let baby: Readonly<Record<string, string>> = {};
  beforeAll(async () => {
    const code = await findDanger(akinyi);
    const [found] = await pages.programme.stores.watch.findBabiesBySearch(null, code, 1);
    baby = { CODE: code, ID: encodeURIComponent(found?.id ?? '') };
    for (const answer of [goOn, none, none, '36.8 44 132', ...Array.from({ length: regions }, () => none)])
      await phones.send(akinyi, answer);
    await phones.loseAll();
  }, 120_000);

  it.each([
    ['alerts', '/', '.card', 'Alerts'],
    ['babies', '/babies?code=CODE', 'tbody tr', 'Babies'],
    ['baby', '/babies/ID', '.plot-drawing', 'Babies'],
    ['figures', '/figures', '.plot-drawing', 'Figures'],
    ['texts', '/texts', 'tbody tr', 'Failed texts'],
    ['roster', '/roster', 'textarea', 'Roster'],
    ['audit', '/audit', 'tbody tr', 'Audit trail'],
    ['account', '/account', 'input[name=new]', 'Account'],
    ['outline', '/flows', '.step-list', 'Questions and rules'],
    ['map-of-contact', '/flows/map?flow=postnatal-contact', '.map-arrow', 'Questions and rules'],
    ['edit-wording', '/edit?file=locales/hi/signs.yaml', '.cm-content', 'Questions and rules'],
    ['no-page', '/nothing-here', 'h1', ''],
  ])('can be read on a narrow screen, in the dark, and by a screen reader: %s', async (name, path, shown, section) => {
    const whole = path.replace(/CODE|ID/, (place) => baby[place] ?? '');
    const page = await pages.open(coordinator, whole, narrow);
    expect(await page.locator(`main ${shown}`).count()).toBeGreaterThan(0);
    expect((await page.locator('nav a[aria-current=page]').allTextContents()).join()).toBe(section);
    for (const one of await page.locator('main details > summary').all()) await one.click();
    for (const colorScheme of ['dark', 'light'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await accessFaults(page)).toEqual([]);
    }
    expect(await scrollsSideways(page)).toBe(false);
    await keepPicture(page, `${name}-narrow`);
    await page.setViewportSize({ width: 1200, height: 800 });
    expect(await accessFaults(page)).toEqual([]);
    await keepPicture(page, `${name}-wide`);
    await page.context().close();
  });
});
