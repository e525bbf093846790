// The server around the doors: strangers, health, other pages, and leaving.

import { once } from 'node:events';
import { connect } from 'node:net';
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { describeFault } from '../../src/channels/fault.ts';
import { listen } from '../../src/channels/listen.ts';
import { buildServer } from '../../src/channels/server.ts';
import { openDoors, postForm } from '../support/channel-doors.ts';

test('health is ok, in plain text, with the usual headers and no word about the framework', async () => {
  const { url } = await openDoors();
  const response = await fetch(`${url}/healthz`);
  expect([response.status, await response.text()]).toEqual([200, 'ok']);
  expect(response.headers.get('x-content-type-options')).toBe('nosniff');
  expect(response.headers.has('content-security-policy')).toBe(true);
  expect(response.headers.has('x-powered-by')).toBe(false);
});

test('a gateway is answered with a text, its type and its length, and nothing for a browser', async () => {
  const { url } = await openDoors();
  const { status, headers } = await postForm(`${url}/sms`, {});
  expect([status, headers['content-type'], headers['content-length']]).toEqual([403, 'text/plain; charset=utf-8', '26']);
  expect(['etag', 'content-security-policy', 'x-powered-by'].filter((name) => name in headers)).toEqual([]);
});

test.each([
  ['GET', '/'],
  ['GET', '/sms'],
  ['GET', '/ussd'],
  ['POST', '/sms/more'],
  ['POST', '/ussd/secret/more'],
  ['GET', '/<script>'],
])('%s %s is not found, and says no more', async (method, path) => {
  const { url, logged } = await openDoors();
  const response = await fetch(url + path, { method });
  expect([response.status, await response.text()]).toEqual([404, 'not found']);
  expect(response.headers.get('content-type')).toBe('text/plain; charset=utf-8');
  expect(logged).toEqual([]);
});

test('a door that is not configured is not there', async () => {
  const app = buildServer({ receive: async () => ({ text: '', ends: true }), log: pino({ enabled: false }) });
  const listening = await listen(app, 0);
  expect((await postForm(`${listening.url}/ussd`, {})).status).toBe(404);
  expect((await postForm(`${listening.url}/sms`, {})).status).toBe(404);
  await listening.close();
});

test('other pages are served under their own path, and their faults are ours', async () => {
  const { url, logged } = await openDoors({
    mounts: {
      '/console': (_request, response) => response.send('pages'),
      '/broken': () => {
        throw new Error('+254700000321');
      },
    },
  });
  expect(await (await fetch(`${url}/console/flows`)).text()).toBe('pages');
  const broken = await fetch(`${url}/broken`);
  expect([broken.status, await broken.text()]).toEqual([500, 'failed']);
  expect(logged).toHaveLength(1);
  expect(logged[0]).not.toContain('254700000321');
});

test('a request in flight is finished before the server is gone, and new ones are refused', async () => {
  let enter = () => {};
  const entered = new Promise<void>((resolve) => {
    enter = resolve;
  });
  let answer = () => {};
  const listening = await listen((_request, response) => {
    answer = () => response.end('finished');
    enter();
  }, 0);
  const inFlight = fetch(listening.url);
  await entered;
  let closed = false;
  const closing = listening.close().then(() => {
    closed = true;
  });
  await expect(fetch(listening.url)).rejects.toThrow('fetch failed');
  expect(closed).toBe(false);
  answer();
  const response = await inFlight;
  expect(await response.text()).toBe('finished');
  expect(response.headers.get('connection')).toBe('close');
  await closing;
  await listening.close();
});

test('an idle kept-alive connection holds nothing up', async () => {
  const listening = await listen((_request, response) => response.end('ok'), 0);
  const socket = connect(listening.port, '127.0.0.1');
  const gone = new Promise((resolve) => socket.once('close', resolve));
  socket.write('GET / HTTP/1.1\r\nHost: pipit.example.org\r\n\r\n');
  const [answer] = await once(socket, 'data');
  expect(String(answer)).toContain('Connection: keep-alive');
  await listening.close();
  await gone;
  expect(socket.destroyed).toBe(true);
});

test('it listens on this machine only, and says so when a port is taken', async () => {
  const listening = await listen((_request, response) => response.end(), 0);
  expect(listening.url).toBe(`http://127.0.0.1:${listening.port}`);
  await expect(listen(() => {}, listening.port)).rejects.toThrow(`Port ${listening.port} on 127.0.0.1 cannot be opened. Stop what uses it`);
  await listening.close();
});

test('a fault is described by name, code and place, never by its message', () => {
  const fault = describeFault(Object.assign(new RangeError('the words\n  of a text'), { code: 'E1' }));
  expect(fault).toMatchObject({ name: 'RangeError', code: 'E1' });
  expect(fault.frames[0]).toContain('server.test.ts');
  expect(JSON.stringify(fault)).not.toContain('words');
  expect(describeFault('the words')).toEqual({ name: 'string', frames: [] });
});
