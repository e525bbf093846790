// What whoever watches the server is told: whether it can take a turn, and how it stands; and who is told.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type MeasuresParts, openMeasures } from '../../src/channels/watching/measures.ts';
import { openDoors } from '../support/channel-doors.ts';

const token = 'an-invented-token-of-the-watcher';
const noon = Date.UTC(2026, 10, 25, 12);
const calm = {
  ...{ alertsOpen: 0, alertOpenSince: null, alertsTaken: 0, textsDue: 0, textDueSince: null },
  ...{ urgentTextsLost: 0, workDueSince: null },
};
const measuresOf = (parts: Partial<MeasuresParts> = {}) =>
  openMeasures({ standing: async () => calm, stores: {}, version: () => 'abc', now: () => noon, ...parts });

describe('/readyz', () => {
  it.each([
    [[], 200, 'ready'],
    [['sessions'], 503, 'away: sessions'],
  ])('with %j away is %i', async (away, status, said) => {
    const { url } = await openDoors({ watching: { lacking: async () => away } });
    const response = await fetch(`${url}/readyz`);
    expect([response.status, await response.text()]).toEqual([status, said]);
  });
});

describe('/metrics', () => {
  const watching = { lacking: async () => [], metrics: { token, measures: measuresOf() } };

  it('is shown to who has the token, and to nobody else', async () => {
    const { url } = await openDoors({ watching });
    const asked = (authorization?: string) => fetch(`${url}/metrics`, { headers: authorization === undefined ? {} : { authorization } });
    for (const wrong of [undefined, 'Bearer ', `Bearer ${token}x`, token]) expect((await asked(wrong)).status).toBe(403);
    const shown = await asked(`Bearer ${token}`);
    expect(shown.status).toBe(200);
    expect(shown.headers.get('content-type')).toContain('text/plain');
    expect(await shown.text()).toContain('pipit_files_info{version="abc"} 1');
  });

  it('is not there without a token', async () => {
    const { url } = await openDoors({ watching: { lacking: async () => [] } });
    expect((await fetch(`${url}/metrics`)).status).toBe(404);
  });

  it('counts turns by channel and outcome, and no phone is named', async () => {
    const measures = measuresOf();
    const incoming = { channel: 'sms', from: '+254700000321', id: 'm1', text: 'BABY' } as const;
    await measures.measured(async () => ({ text: 'Heard.', ends: false }))(incoming);
    await expect(
      measures.measured(async () => {
        throw new Error('broken');
      })(incoming),
    ).rejects.toThrow('broken');
    const page = await measures.page();
    expect(page).toContain('pipit_turns_total{channel="sms",outcome="answered"} 1');
    expect(page).toContain('pipit_turns_total{channel="sms",outcome="failed"} 1');
    expect(page).toContain('pipit_turn_seconds_count{channel="sms"} 2');
    expect(page).not.toContain('254700000321');
  });

  it('says how long what waits has waited, and does not show as known what cannot be known', async () => {
    const waiting = { ...calm, alertsOpen: 2, alertOpenSince: noon - 90_000 };
    expect(await measuresOf({ standing: async () => waiting }).page()).toMatch(/pipit_alerts_open 2[\s\S]*pipit_alert_waits_seconds 90/);
    const away = async () => {
      throw new Error('the register is away');
    };
    const page = await measuresOf({ standing: away, stores: { register: away, sessions: async () => [] } }).page();
    expect(page).toContain('pipit_alerts_open Nan');
    expect(page).toContain('pipit_store_up{store="register"} 0');
    expect(page).toContain('pipit_store_up{store="sessions"} 1');
  });

  it('shows whether the link to a message centre stands', async () => {
    for (const [isUp, shown] of [
      [true, '1'],
      [false, '0'],
      [null, 'Nan'],
    ] as const)
      expect(await measuresOf(isUp === null ? {} : { isLinkUp: () => isUp }).page()).toContain(`pipit_link_up ${shown}`);
  });

  it('has all that the rules for ringing somebody ask for', async () => {
    const file = new URL('../../src/channels/watching/alert-rules.yaml', import.meta.url);
    const { groups } = parse(readFileSync(file, 'utf8')) as { groups: { rules: { expr: string }[] }[] };
    const page = await measuresOf({ stores: { register: async () => 1 } }).page();
    const asked = groups.flatMap(({ rules }) => rules).flatMap(({ expr }) => expr.match(/pipit_\w+/g) ?? []);
    expect(asked.length).toBeGreaterThan(5);
    expect(asked.filter((name) => !page.includes(`# TYPE ${name.replace(/_bucket$/, '')} `))).toEqual([]);
  });
});
