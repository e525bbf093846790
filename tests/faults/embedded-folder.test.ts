// The embedded database on a folder: one process at a time, and nothing lost by closing it or by kill -9.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openEmbedded } from '../../src/register/pglite.ts';
import { registerIn } from '../../src/register/register.ts';
import { embeddedSessions } from '../../src/sessions/embedded.ts';
import { usualLifetimes } from '../../src/sessions/lifetimes.ts';
import { startChild } from '../support/child-script.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import type { StartedProcess } from '../support/started-process.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const folder = temporaryFolder();
const phone = freshPhone();
const now = Date.UTC(2026, 10, 24, 12);
let child: StartedProcess;

beforeAll(async () => {
  child = await startChild('hold-folder', [folder.path, phone, String(now)], 'held');
});

afterAll(async () => {
  await child?.end('SIGKILL');
  folder.remove();
});

describe('the embedded database on a folder', () => {
  it('refuses a second process, names the first and what to do', async () => {
    const failure = await openEmbedded(folder.path).catch((error: Error) => error.message);
    expect(failure).toContain(`in use by process ${child.pid}`);
    expect(failure).toContain('Stop that process, choose another folder, or set DATABASE_URL');
  });

  it('opens after kill -9 with what was written before it, and serves the phone again once its lock has run out', async () => {
    await child.end('SIGKILL');
    const database = await openEmbedded(folder.path);
    const sessions = embeddedSessions(database);
    expect(await sessions.open(phone, 'm1', now)).toEqual({ kind: 'repeated', reply: 'r1' });
    expect(await sessions.open(phone, 'm2', now)).toEqual({ kind: 'busy' });
    expect(await sessions.open(phone, 'm2', now + usualLifetimes.lockMilliseconds)).toMatchObject({
      kind: 'held',
      held: { session: 'written before the kill' },
    });
    expect(await registerIn(database).claimTexts(now, 10, 1)).toMatchObject([{ key: 'text-1', to: phone }]);
    await database.close();
  });

  it('opens again after it was closed, with its sessions; closing twice is harmless', async () => {
    const database = await openEmbedded(folder.path);
    await expect(openEmbedded(folder.path)).rejects.toThrow(`in use by process ${process.pid}`);
    const later = now + 2 * usualLifetimes.lockMilliseconds;
    expect(await embeddedSessions(database).open(phone, 'm3', later)).toMatchObject({ held: { session: 'written before the kill' } });
    await database.close();
    await database.close();
  });
});
