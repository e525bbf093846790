// Who comes into the console and who does not, over a server of its own and the real register.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { facilitiesOf } from '../../src/console/access/scope.ts';
import type { Account } from '../../src/conversation/accounts.ts';
import { hashPassword, isPassword } from '../../src/conversation/password.ts';
import { startConsole, type TestConsole } from '../support/console.ts';

const password = 'a long password of a test';
const rose: Account = { name: 'rose', role: 'coordinator', phone: null };
const wanjiru: Account = { name: 'wanjiru', role: 'nurse', phone: '+254700555012' };
let tested: TestConsole;

beforeAll(async () => {
  tested = await startConsole();
  const passwordHash = await hashPassword(password);
  for (const account of [rose, wanjiru, { ...rose, name: 'locked' }, { ...rose, name: 'gone' }])
    await tested.programme.stores.accounts.save({ ...account, passwordHash }, 'a test', Date.now());
});
afterAll(() => tested?.stop());

const get = (path: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(`${tested.url}${path}`, { redirect: 'manual', headers: { accept: 'text/html', ...headers } });
const post = (path: string, fields: Readonly<Record<string, string>>, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(`${tested.url}${path}`, {
    method: 'POST',
    redirect: 'manual',
    headers: { accept: 'text/html', ...headers },
    body: new URLSearchParams(fields),
  });
const signIn = (name: string, given = password, to = '/'): Promise<Response> => post('/sign-in', { name, password: given, to });
const cookieOf = (response: Response): string => response.headers.get('set-cookie')?.split(';')[0] ?? '';
const formToken = async (cookie: string): Promise<string> =>
  /name="form-token" content="([^"]+)"/.exec(await (await get('/account', { cookie })).text())?.[1] ?? '';

describe('signing in', () => {
  it('leads to the page that was asked for', async () => {
    const asked = await get('/account');
    expect([asked.status, asked.headers.get('location')]).toEqual([303, '/console/sign-in?to=%2Faccount']);
    const signed = await signIn('rose', password, '/account');
    expect([signed.status, signed.headers.get('location')]).toEqual([303, '/console/account']);
    expect(await (await get('/account', { cookie: cookieOf(signed) })).text()).toContain('rose, coordinator');
  });

  it('gives a cookie that scripts cannot read and other sites cannot send', async () => {
    const cookie = (await signIn('rose')).headers.get('set-cookie');
    for (const part of ['HttpOnly', 'SameSite=Strict', 'Path=/console']) expect(cookie).toContain(part);
  });

  it.each([
    ['a wrong password', 'rose', 'something else altogether'],
    ['a name that there is not', 'nobody', password],
    ['nothing', '', ''],
  ])('is refused with %s, and says no more than that', async (_what, name, given) => {
    const refused = await signIn(name, given);
    expect([refused.status, refused.headers.get('set-cookie')]).toEqual([403, null]);
    expect(await refused.text()).toContain('do not go together');
  });

  it.each(['https://example.org', '//example.org', '/\\example.org', 'javascript:alert(1)'])('leads nowhere else: %s', async (to) => {
    expect((await signIn('rose', password, to)).headers.get('location')).toBe('/console/');
  });

  it('waits after five wrong tries, also for the right password', async () => {
    for (let tries = 0; tries < 5; tries += 1) expect((await signIn('locked', 'wrong')).status).toBe(403);
    const waiting = await signIn('locked');
    expect([waiting.status, waiting.headers.get('set-cookie')]).toEqual([429, null]);
    expect(await waiting.text()).toContain('15 minutes');
  });
});

describe('a session', () => {
  it('ends with signing out', async () => {
    const cookie = cookieOf(await signIn('rose'));
    await post('/sign-out', { token: await formToken(cookie) }, { cookie });
    expect((await get('/account', { cookie })).status).toBe(303);
  });

  it('ends with its account', async () => {
    const cookie = cookieOf(await signIn('gone'));
    expect((await get('/account', { cookie })).status).toBe(200);
    await tested.programme.stores.accounts.remove('gone', 'a test', Date.now());
    expect((await get('/account', { cookie })).status).toBe(303);
  });

  it('ends after eight hours in which nothing was asked for, and after a day', async () => {
    const { accounts } = tested.programme.stores;
    const begun = Date.UTC(2026, 10, 25, 9);
    const hours = (count: number): number => begun + count * 3_600_000;
    await accounts.begin('rose', 'token of a test', 'form', begun);
    expect((await accounts.session('token of a test', hours(7)))?.account).toEqual(rose);
    expect(await accounts.session('token of a test', hours(15.5))).toBeNull();
    await accounts.begin('rose', 'another token', 'form', begun);
    for (const hour of [7, 14, 21, 23]) expect(await accounts.session('another token', hours(hour))).not.toBeNull();
    expect(await accounts.session('another token', hours(24))).toBeNull();
  });

  it('is kept as a hash', async () => {
    const cookie = cookieOf(await signIn('rose'));
    const [, token = ''] = cookie.split('=');
    expect(await tested.programme.stores.accounts.session(decodeURIComponent(token), Date.now())).not.toBeNull();
    expect(token.length).toBeGreaterThan(40);
  });
});

describe('a post', () => {
  const change = { now: password, new: 'another long password' };

  it.each([
    ['without the token of a page', {}],
    ['with another token', { token: 'x'.repeat(43) }],
  ])('is refused %s, and changes nothing', async (_what, extra) => {
    const cookie = cookieOf(await signIn('rose'));
    expect((await post('/account', { ...change, ...extra }, { cookie })).status).toBe(403);
    expect((await signIn('rose')).status).toBe(303);
  });

  it('of somebody who is not signed in is refused', async () => {
    expect((await post('/account', change)).status).toBe(401);
  });

  it('with the token of the page changes the password, once the old one is given', async () => {
    const cookie = cookieOf(await signIn('wanjiru'));
    const token = await formToken(cookie);
    expect(await (await post('/account', { ...change, now: 'wrong', token }, { cookie })).text()).toContain('do not go together');
    expect(await (await post('/account', { ...change, new: 'short', token }, { cookie })).text()).toContain('fewer than 12');
    expect(await (await post('/account', { ...change, token }, { cookie })).text()).toContain('password is changed');
    expect((await signIn('wanjiru', change.new)).status).toBe(303);
  });
});

describe('what is not for everybody', () => {
  it('is told to a nurse who asks for a coordinator’s page', async () => {
    const cookie = cookieOf(await signIn('wanjiru', 'another long password'));
    for (const path of ['/flows', '/changes', '/roster', '/audit']) {
      const response = await get(path, { cookie });
      expect([path, response.status]).toEqual([path, 403]);
    }
  });

  it('is what holds for the whole programme, to a coordinator of some facilities', async () => {
    const wafula: Account = { name: 'wafula', role: 'coordinator', phone: '+254700555012' };
    await tested.programme.stores.accounts.save({ ...wafula, passwordHash: await hashPassword(password) }, 'a test', Date.now());
    const cookie = cookieOf(await signIn('wafula'));
    const first = await (await get('/', { cookie })).text();
    for (const [path, status] of [
      ['/figures', 200],
      ['/texts', 200],
      ['/flows', 403],
      ['/edit?file=flows/protocol/limits.yaml', 403],
      ['/wording', 403],
      ['/changes', 403],
      ['/roster', 403],
      ['/audit', 403],
    ] as const) {
      expect([path, (await get(path, { cookie })).status]).toEqual([path, status]);
      expect([path, first.includes(`href="/console${path}"`)]).toEqual([path, status === 200]);
    }
    const token = await formToken(cookie);
    expect((await post('/changes/undo', { token, seen: '0' }, { cookie })).status).toBe(403);
  });

  it('is a facility and all below it for somebody of the roster, all where it is above all, none for a lost number', () => {
    const { roster } = tested.programme;
    expect(facilitiesOf(wanjiru, roster)).toEqual(['marula']);
    expect(facilitiesOf({ ...wanjiru, phone: '+254700555021' }, roster)).toBeNull();
    expect(facilitiesOf(rose, roster)).toBeNull();
    expect(facilitiesOf({ ...wanjiru, phone: '+254700999999' }, roster)).toEqual([]);
  });

  it('brings no script of others, and may not be framed', async () => {
    const policy = (await get('/sign-in')).headers.get('content-security-policy') ?? '';
    for (const part of ["default-src 'none'", "script-src 'self'", "frame-ancestors 'none'", "form-action 'self'"])
      expect(policy).toContain(part);
  });
});

describe('a password', () => {
  it('is kept so that two of the same differ, and only the right one fits', async () => {
    const [one, other] = await Promise.all([hashPassword(password), hashPassword(password)]);
    expect(one).not.toBe(other);
    expect(await Promise.all([isPassword(password, one), isPassword(`${password} `, one), isPassword('', null)])).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('derives what RFC 7914 section 12 prints', async () => {
    // "password", "NaCl", N 1024, r 8, p 16, 64 bytes; its first 32, since scrypt ends in PBKDF2, whose output blocks do not depend on its length.
    const printed = 'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162';
    const kept = ['scrypt', 1024, 8, 16, Buffer.from('NaCl').toString('base64'), Buffer.from(printed, 'hex').toString('base64')].join('$');
    expect(await isPassword('password', kept)).toBe(true);
  });
});
