// What a browser downloads for the first page after signing in, counted as it comes over the line: a nurse may look at it on a slow one.

import type { Page, Request } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { coordinator, startConsole, type TestConsole } from '../../support/console.ts';
import { phonesOf } from '../../support/programme-phones.ts';

const mostBytes = 300_000;

let pages: TestConsole;
beforeAll(async () => {
  pages = await startConsole();
});
afterAll(async () => {
  await pages?.stop();
});

/** All that is asked for while the page loads, the page itself among it, by a browser that holds nothing of it yet. */
async function loaded(path: string): Promise<{ readonly page: Page; readonly requests: readonly Request[] }> {
  const page = await pages.open(coordinator, '/account');
  await page.goto('about:blank');
  const session = await page.context().newCDPSession(page);
  await session.send('Network.clearBrowserCache');
  const requests: Request[] = [];
  page.on('request', (request) => requests.push(request));
  await page.goto(`${pages.url}${path}`, { waitUntil: 'networkidle' });
  return { page, requests };
}

const pathOf = (request: Request): string => new URL(request.url()).pathname;

describe('the first page after signing in', () => {
  it('comes packed, in less than 300 kB with style and script, from no other place, and without the editor', async () => {
    const phones = phonesOf(pages.programme);
    for (const text of ['BABY 1 0430 39 3100', '1']) await phones.send('+254700555101', text);
    const { page, requests } = await loaded('/');
    expect(await page.locator('.card').count()).toBe(1);
    const overTheLine = requests.filter((request) => !request.url().startsWith('data:'));
    expect(new Set(overTheLine.map((request) => new URL(request.url()).origin))).toEqual(new Set([new URL(pages.url).origin]));
    expect(overTheLine.map(pathOf).sort()).toEqual(['/console/', '/console/assets/live.js', '/console/assets/style.css']);
    const sizes = await Promise.all(
      overTheLine.map(async (request) => {
        const response = await request.response();
        const { responseBodySize, responseHeadersSize } = await request.sizes();
        const text = (await response?.body())?.length ?? 0;
        return {
          path: pathOf(request),
          encoding: response?.headers()['content-encoding'],
          bytes: responseBodySize + responseHeadersSize,
          text,
        };
      }),
    );
    for (const { encoding, bytes, text, path } of sizes) {
      expect([path, encoding]).toEqual([path, 'gzip']);
      expect([path, bytes > 0]).toEqual([path, true]);
      expect(text).toBeGreaterThan(0);
    }
    expect(sizes.reduce((sum, { bytes }) => sum + bytes, 0)).toBeLessThan(mostBytes);
    await page.context().close();
  });

  it('leaves the editor to the page that edits, which loads it packed', async () => {
    const { page, requests } = await loaded('/edit?file=flows/protocol/needs.yaml');
    const editor = requests.find((request) => pathOf(request).endsWith('/editor.js'));
    expect((await editor?.response())?.headers()['content-encoding']).toBe('gzip');
    await page.context().close();
  });
});

describe('a file of the pages', () => {
  const get = (name: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
    fetch(`${pages.url}/assets/${name}`, { headers });

  it('is plain for whoever takes nothing packed, and the same', async () => {
    const [plain, packed] = [await get('style.css', { 'accept-encoding': 'identity' }), await get('style.css')];
    expect([plain.headers.get('content-encoding'), packed.headers.get('content-encoding')]).toEqual([null, 'gzip']);
    expect(plain.headers.get('content-type')).toBe('text/css; charset=utf-8');
    expect(await plain.text()).toBe(await packed.text());
  });

  it('is not sent again while it has not changed', async () => {
    const mark = (await get('live.js')).headers.get('etag') ?? '';
    const asksFor = (known: string) => get('live.js', { 'if-none-match': known, 'cache-control': 'max-age=0' });
    expect([(await asksFor(mark)).status, (await asksFor('W/"other"')).status]).toEqual([304, 200]);
  });

  it.each(['nothing.js', '..%2f..%2f..%2fpackage.json', '.', 'style.css%00'])('is none of another folder, or unknown: %s', async (name) => {
    expect((await get(name)).status).toBe(404);
  });
});
