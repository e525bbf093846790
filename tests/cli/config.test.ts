// What stops a start: settings that cannot be read, and combinations that would leave a door open in production, each with its remedy.

import { describe, expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { faultsOfServing } from '../../src/cli/serving-faults.ts';

const keys = `2026:${Buffer.alloc(32, 7).toString('base64')}`;
const safe = {
  NODE_ENV: 'production',
  DATABASE_URL: 'postgres://pipit@127.0.0.1/pipit',
  PIPIT_KEYS: keys,
  PUBLIC_URL: 'https://pipit.example.org',
  SMS_ACCOUNT: 'account',
  SMS_TOKEN: 'token',
  SMS_FROM: '+254700000999',
};

function faultsOf(env: Readonly<Record<string, string | undefined>>): readonly string[] {
  const read = readConfig(env, '.');
  return read.kind === 'refused' ? read.faults : faultsOfServing(read.config);
}

describe('a start', () => {
  it('goes on with what production needs', () => {
    expect(faultsOf(safe)).toEqual([]);
  });

  it('takes the nodes of a Redis Cluster', () => {
    expect(faultsOf({ ...safe, REDIS_URL: 'redis://10.0.0.1:6379,redis://10.0.0.2:6379' })).toEqual([]);
  });

  it.each([
    ['doors left open', { PIPIT_DEVELOPMENT: '1' }, /Unset one of the two/],
    ['a database that a power cut may end', { DATABASE_URL: undefined }, /set DATABASE_URL, or PIPIT_ALLOW_EMBEDDED=1/],
    ['names that stand readable', { PIPIT_KEYS: undefined }, /set PIPIT_KEYS=ID:KEY/],
    ['texts that are readable on the way', { PUBLIC_URL: 'http://pipit.example.org' }, /set the https address/],
    ['no address that signatures are checked against', { PUBLIC_URL: undefined }, /set it to the address/],
    ['a gateway without a token', { SMS_TOKEN: undefined }, /^SMS_TOKEN is not set, and the twilio-compatible gateway needs it/],
    ['a Redis that is none', { REDIS_URL: 'http://10.0.0.1' }, /^REDIS_URL: .*several with commas.*Set it anew/],
    ['a node of a cluster that is none', { REDIS_URL: 'redis://10.0.0.1:6379,10.0.0.2:6379' }, /^REDIS_URL: .*Set it anew/],
    ['a secret that can be guessed', { USSD_SECRET: 'short' }, /^USSD_SECRET: .*Set it anew/],
    ['a phone that would never be asked for its PIN', { PIPIT_PIN_MINUTES: '0' }, /^PIPIT_PIN_MINUTES: .*Set it anew/],
    ['a token for figures that can be guessed', { PIPIT_METRICS_TOKEN: 'short' }, /^PIPIT_METRICS_TOKEN: .*Set it anew/],
    ['a key that is none', { PIPIT_KEYS: '2026:short' }, /^PIPIT_KEYS: .*openssl rand -base64 32/],
  ])('is refused with %s, which says what to set', (_what, changed, remedy) => {
    const faults = faultsOf({ ...safe, ...changed });
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(remedy);
  });

  it('needs none of it at a desk in development', () => {
    expect(faultsOf({ PIPIT_DEVELOPMENT: '1' })).toEqual([]);
  });

  it('takes plain http where it never leaves the machine', () => {
    expect(faultsOf({ ...safe, PUBLIC_URL: 'http://127.0.0.1:3000' })).toEqual([]);
  });
});
