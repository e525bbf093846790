// Every written conversation runs four ways: straight; with the application built anew between messages; with each message
// delivered twice; by SMS and by USSD. What is written in it holds in all of them.

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { playScript } from '../../src/cli/play-script.ts';
import { readScript, type Script } from '../../src/cli/script.ts';
import type { Channel } from '../../src/conversation/ports.ts';
import { openDesk } from '../support/desk.ts';

const folder = new URL('.', import.meta.url).pathname;
const scripts = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => ({ name, script: readScript(name, readFileSync(folder + name, 'utf8')) }));

interface Way {
  readonly way: string;
  readonly channel: Channel;
  readonly deliveries?: number;
  readonly restarts?: boolean;
}

const ways: readonly Way[] = [
  { way: 'by SMS', channel: 'sms' },
  { way: 'by USSD', channel: 'ussd' },
  { way: 'by SMS, saved and restored between messages', channel: 'sms', restarts: true },
  { way: 'by USSD, saved and restored between messages', channel: 'ussd', restarts: true },
  { way: 'by SMS, each message delivered twice', channel: 'sms', deliveries: 2 },
  { way: 'by USSD, each message delivered twice', channel: 'ussd', deliveries: 2 },
];

const waysOf = (script: Script): readonly Way[] => ways.filter((way) => script.channel === undefined || way.channel === script.channel);

describe.each(scripts)('$name: $script.title', ({ script }) => {
  it.each(waysOf(script))('reads as written $way', async ({ channel, deliveries = 1, restarts = false }) => {
    const desk = await openDesk({ worker: script.as, channel, now: Date.parse(script.at), deliveries, restarts });
    expect(await playScript(script, desk.phones)).toEqual([]);
    expect(desk.faults).toEqual([]);
  });
});

describe('the set of conversations', () => {
  it('holds at least 25, and one on a single channel says why', () => {
    expect(scripts.length).toBeGreaterThanOrEqual(25);
    expect(scripts.filter(({ script }) => script.channel !== undefined && script.because === undefined).map(({ name }) => name)).toEqual(
      [],
    );
  });
});
