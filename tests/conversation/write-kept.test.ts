// What was kept while the register was away is written when it is back: all of it, once, by any number of processes, and one
// entry that the register refuses holds back no other.

import { describe, expect, it } from 'vitest';
import type { Sent } from '../../src/conversation/records.ts';
import { type KeptParts, keptWriter } from '../../src/conversation/write-kept.ts';
import { alert, examination, noon, text } from '../conformance/entries.ts';
import { memorySessions } from '../support/memory-stores.ts';
import { openTestRegister } from '../support/test-register.ts';

function open() {
  const [sessions, register] = [memorySessions(), openTestRegister()];
  const [refusals, sent]: [string[], string[]] = [[], []];
  const clock = { now: noon };
  const gateway: { answers: Sent } = { answers: { kind: 'failed', reason: 'away' } };
  const parts: KeptParts = {
    sessions,
    register,
    send: async ({ key }) => {
      sent.push(key);
      return gateway.answers;
    },
    now: () => clock.now,
    refused: ({ key }) => void refusals.push(key),
  };
  return { sessions, register, refusals, sent, clock, gateway, parts, write: keptWriter(parts) };
}

describe('what is kept', () => {
  it('is none: nothing is asked of the register', async () => {
    const { register, write } = open();
    register.isDown = true;
    expect(await write()).toBe(0);
  });

  it('is written once, and let go', async () => {
    const { sessions, register, write } = open();
    await sessions.keep([examination(), alert(), { ...text({ urgent: true }), gatewayId: 'SM1' }, text()]);
    expect(await write()).toBe(4);
    expect(await write()).toBe(0);
    expect(await register.counts()).toMatchObject({ examinations: 1, alerts: 1, texts_out: 2 });
    expect(await register.rows('select state, gateway_id from texts_out order by state')).toEqual([
      { state: 'due', gateway_id: null },
      { state: 'sent', gateway_id: 'SM1' },
    ]);
  });

  it('stays while the register is away', async () => {
    const { sessions, register, write, refusals } = open();
    await sessions.keep([text()]);
    register.isDown = true;
    await expect(write()).rejects.toThrow('The register is down');
    expect(await sessions.kept(9)).toHaveLength(1);
    expect(refusals).toEqual([]);
  });

  it('is written all but what the register refuses, which stays, is tried again after a pause and told of each time', async () => {
    const { sessions, register, write, refusals, clock } = open();
    const [first, broken, last] = [text(), text({ at: Number.NaN }), text()];
    await sessions.keep([first, broken, last]);
    expect(await write()).toBe(2);
    clock.now += 59_999;
    expect(await write()).toBe(0);
    expect(refusals).toEqual([broken.key]);
    clock.now += 1;
    expect(await write()).toBe(0);
    expect(refusals).toEqual([broken.key, broken.key]);
    expect(await register.counts()).toEqual({ texts_out: 2 });
    expect((await sessions.kept(9)).map(({ key }) => key)).toEqual([broken.key]);
  });

  it('is written behind any number of entries that the register refuses', async () => {
    const { sessions, register, write, refusals } = open();
    await sessions.keep([...Array.from({ length: 120 }, () => text({ at: Number.NaN })), examination(), alert()]);
    const passes = [await write(), await write(), await write(), await write()];
    expect(passes).toEqual([0, 0, 2, 0]);
    expect(refusals).toHaveLength(120);
    expect(await register.counts()).toMatchObject({ examinations: 1, alerts: 1 });
  });

  it('and urgent, and the register refuses it while it takes others, goes to the gateway all the same, once', async () => {
    const { sessions, register, write, sent, clock, gateway } = open();
    const refused = text({ urgent: true, at: Number.NaN });
    gateway.answers = { kind: 'sent', gatewayId: 'SM3' };
    await sessions.keep([refused, text()]);
    expect(await write()).toBe(1);
    clock.now += 3_600_000;
    expect(await write()).toBe(0);
    expect(sent).toEqual([refused.key]);
    expect(await register.counts()).toEqual({ texts_out: 1 });
  });

  it('is written once by several processes at once, more than one batch of it', async () => {
    const { sessions, register, write } = open();
    await sessions.keep(Array.from({ length: 120 }, () => text()));
    const drain = async (): Promise<void> => {
      while ((await write()) > 0);
    };
    await Promise.all([drain(), drain(), drain()]);
    expect(await register.counts()).toEqual({ texts_out: 120 });
    expect(await sessions.kept(9)).toEqual([]);
  });

  it('is written by another process when the first one dies before it lets go', async () => {
    const { sessions, register, write, parts } = open();
    await sessions.keep([text(), alert()]);
    const dying = keptWriter({ ...parts, sessions: { ...sessions, letGo: () => Promise.reject(new Error('killed')) } });
    await expect(dying()).rejects.toThrow('killed');
    expect(await write()).toBe(2);
    expect(await register.counts()).toMatchObject({ alerts: 1, texts_out: 1 });
  });

  it('and urgent, and nobody took it, is tried again after a pause while the register stays away, until it is sent', async () => {
    const { sessions, register, write, sent, clock, gateway } = open();
    const [urgent, out, reminder] = [text({ urgent: true }), { ...text({ urgent: true }), gatewayId: 'SM1' }, text()];
    await sessions.keep([urgent, out, reminder]);
    register.isDown = true;
    const away = () => expect(write()).rejects.toThrow('The register is down');
    await away();
    clock.now += 9_999;
    await away();
    expect(sent).toHaveLength(1);
    clock.now += 1;
    gateway.answers = { kind: 'unknown' };
    await away();
    clock.now += 59_999;
    await away();
    expect(sent).toHaveLength(2);
    clock.now += 1;
    gateway.answers = { kind: 'sent', gatewayId: 'SM2' };
    await away();
    clock.now += 3_600_000;
    await away();
    expect(sent).toEqual([urgent.key, urgent.key, urgent.key]);
    register.isDown = false;
    expect(await write()).toBe(3);
    expect(await register.rows('select gateway_id from texts_out where urgent order by 1')).toEqual([
      { gateway_id: 'SM1' },
      { gateway_id: 'SM2' },
    ]);
    expect(sent).toHaveLength(3);
  });
});
