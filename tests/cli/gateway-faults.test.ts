// Exactly one gateway, whole, and no texts over a network for all to read.

import { expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { faultsOfGateways, gatewaysIn } from '../../src/cli/gateway-faults.ts';
import { faultsOfServing } from '../../src/cli/serving-faults.ts';

const twilio = { SMS_ACCOUNT: 'AC1', SMS_TOKEN: '12345', SMS_FROM: '700' };
const kannel = {
  PIPIT_KANNEL_URL: 'http://127.0.0.1:13013/cgi-bin/sendsms',
  PIPIT_KANNEL_USER: 'pipit',
  PIPIT_KANNEL_PASSWORD: 'invented',
  PIPIT_KANNEL_SECRET: 'an-invented-secret-of-kannel',
  SMS_FROM: '700',
};
const smpp = { PIPIT_SMPP_URL: 'ssmpp://centre.example.org', PIPIT_SMPP_ID: 'pipit', PIPIT_SMPP_PASSWORD: 'invented', SMS_FROM: '700' };
const tunnel = { PIPIT_ALLOW_PLAIN_GATEWAY: '1' };

function configOf(environment: Readonly<Record<string, string>>) {
  const read = readConfig({ PUBLIC_URL: 'https://pipit.example.org', DATABASE_URL: 'postgres://127.0.0.1/x', ...environment }, '.');
  if (read.kind === 'refused') throw new Error(read.faults.join('\n'));
  return read.config;
}

it.each([
  ['twilio-compatible', twilio],
  ['kannel', kannel],
  ['smpp', smpp],
])('a whole %s gateway is the one, and nothing is lacking', (kind, environment) => {
  const config = configOf({ ...environment, NODE_ENV: 'production', PIPIT_KEYS: `a:${Buffer.alloc(32).toString('base64')}` });
  expect(gatewaysIn(config)).toEqual([kind]);
  expect(faultsOfServing(config)).toEqual([]);
});

it.each<[string, Readonly<Record<string, string>>, RegExp[]]>([
  ['none', {}, [/^No gateway is set\. Set SMS_ACCOUNT/]],
  ['two', { ...twilio, ...kannel }, [/^Settings of several gateways are there: twilio-compatible, kannel\..* leave out/]],
  ['a number without a gateway', { SMS_FROM: '700' }, [/^No gateway is set/]],
  ['twilio without its token', { SMS_ACCOUNT: 'AC1', SMS_FROM: '700' }, [/^SMS_TOKEN is not set.* Set it to its token\.$/]],
  ['Kannel without its secret', { ...kannel, PIPIT_KANNEL_SECRET: '' }, [/^PIPIT_KANNEL_SECRET is not set.*openssl rand/]],
  [
    'SMPP with nothing but an address',
    { PIPIT_SMPP_URL: 'ssmpp://centre.example.org' },
    [/PIPIT_SMPP_ID/, /PIPIT_SMPP_PASSWORD/, /SMS_FROM/],
  ],
  [
    'SMPP in the open',
    { ...smpp, PIPIT_SMPP_URL: 'smpp://centre.example.org' },
    [/^PIPIT_SMPP_URL .*for all to read\. Use https or ssmpp, or/],
  ],
  ['Kannel elsewhere in the open', { ...kannel, PIPIT_KANNEL_URL: 'http://10.0.0.7/sendsms' }, [/^PIPIT_KANNEL_URL .*for all to read/]],
  ['reports in the open', { ...kannel, PIPIT_KANNEL_REACHES: 'http://pipit.example.org' }, [/^PIPIT_KANNEL_REACHES /]],
  ['a host that only begins as this one', { ...smpp, PIPIT_SMPP_URL: 'smpp://127.0.0.1.example.org' }, [/^PIPIT_SMPP_URL /]],
])('%s stops the start with its remedy', (_name, environment, faults) => {
  const found = faultsOfGateways(configOf(environment));
  expect(found).toHaveLength(faults.length);
  for (const [at, fault] of faults.entries()) expect(found[at]).toMatch(fault);
});

it('lets texts through a tunnel that somebody vouches for, and within this machine', () => {
  expect(faultsOfGateways(configOf({ ...smpp, ...tunnel, PIPIT_SMPP_URL: 'smpp://10.0.0.7:2775' }))).toEqual([]);
  expect(faultsOfGateways(configOf({ ...smpp, PIPIT_SMPP_URL: 'smpp://localhost:2775' }))).toEqual([]);
});

it.each([
  ['PIPIT_SMPP_URL', 'http://centre.example.org'],
  ['PIPIT_SMPP_WINDOW', '0'],
  ['PIPIT_SMPP_ID', 'longer-than-fifteen'],
  ['PIPIT_KANNEL_SECRET', 'short'],
  ['PIPIT_TEXTS_A_SECOND', 'many'],
])('%s=%s is refused', (name, value) => {
  expect(() => configOf({ ...smpp, [name]: value })).toThrow(name);
});
