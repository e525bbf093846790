// `pipit serve` that cannot open its door ends, and says why: a process without a door would answer nobody, and nobody would start
// another.

import { type AddressInfo, createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { startProcess } from '../support/started-process.ts';

it('ends with the remedy when its port is taken', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const { port } = other.address() as AddressInfo;
  const { PATH = '', HOME = '' } = process.env;
  const started = startProcess(process.execPath, ['--import', 'tsx', 'src/cli/pipit.ts', 'serve', '--development'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    env: { PATH, HOME, PIPIT_DATA: 'memory', PORT: String(port) },
    sign: 'pipit is listening',
    remedy: 'Run npm install.',
  });
  await expect(started).rejects.toThrow(
    new RegExp(`ended with 2 [\\s\\S]*Port ${port} on 127\\.0\\.0\\.1 cannot be opened\\. Stop what uses it`),
  );
  await new Promise((resolve) => other.close(resolve));
});

it('answers a phone that sends too much no more, tells whoever watches how it stands, and is ready', async () => {
  const { PATH = '', HOME = '' } = process.env;
  const token = 'an-invented-token-of-the-watcher';
  const started = await startProcess(process.execPath, ['--import', 'tsx', 'src/cli/pipit.ts', 'serve', '--development'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    env: { PATH, HOME, PIPIT_DATA: 'memory', PORT: '0', PIPIT_MESSAGES_A_MINUTE: '20', PIPIT_METRICS_TOKEN: token },
    sign: 'pipit is listening',
    remedy: 'Run npm install.',
  });
  try {
    const [, url = ''] = /"url":"([^"]+)"/.exec(started.saidSoFar()) ?? [];
    const text = async (id: number, from: string): Promise<string> => {
      const body = new URLSearchParams({ MessageSid: `SM${String(id).padStart(32, '0')}`, From: from, To: '+254700000999', Body: 'MENU' });
      return (await fetch(`${url}/sms`, { method: 'POST', body })).text();
    };
    const answers: boolean[] = [];
    for (let id = 0; id < 21; id += 1) answers.push((await text(id, '+254700555101')).includes('<Message>'));
    expect(answers).toEqual([...Array.from({ length: 20 }, () => true), false]);
    const strange: boolean[] = [];
    for (let id = 100; id < 106; id += 1) strange.push((await text(id, '+254700000777')).includes('<Message>'));
    expect(strange).toEqual([true, true, true, true, true, false]);
    expect(await (await fetch(`${url}/readyz`)).text()).toBe('ready');
    const page = await (await fetch(`${url}/metrics`, { headers: { authorization: `Bearer ${token}` } })).text();
    expect(page).toContain('pipit_turns_total{channel="sms",outcome="answered"} 25');
    expect(page).toContain('pipit_alerts_open 0');
    expect(page).toContain('pipit_store_up{store="register"} 1');
  } finally {
    await started.end('SIGTERM');
  }
});
