// Which gateway texts go out through, and what it lacks: exactly one must be whole, and none may send texts over a network for all to
// read. Next: gateway.ts, which opens it.

import type { Config } from './config.ts';

export type GatewayKind = 'twilio-compatible' | 'kannel' | 'smpp';

type Needs = Readonly<Partial<Record<keyof Config, string>>>;

/** What each gateway cannot do without, and what that is. */
const needs: Readonly<Record<GatewayKind, Needs>> = {
  'twilio-compatible': {
    SMS_ACCOUNT: 'the gateway account',
    SMS_TOKEN: 'its token',
    SMS_FROM: 'your number',
  },
  kannel: {
    PIPIT_KANNEL_URL: 'its sendsms address',
    PIPIT_KANNEL_USER: 'the username of a sendsms-user',
    PIPIT_KANNEL_PASSWORD: 'its password',
    PIPIT_KANNEL_SECRET: 'what Kannel shows here: openssl rand -hex 24',
    SMS_FROM: 'your number',
  },
  smpp: {
    PIPIT_SMPP_URL: 'where the centre is',
    PIPIT_SMPP_ID: 'your system_id there',
    PIPIT_SMPP_PASSWORD: 'its password',
    SMS_FROM: 'your number',
  },
};

/** The gateways that the settings speak of: what only one of them has is set. */
export function gatewaysIn(config: Config): GatewayKind[] {
  const kinds: readonly (readonly [GatewayKind, unknown])[] = [
    ['twilio-compatible', config.SMS_ACCOUNT ?? config.SMS_TOKEN],
    ['kannel', config.PIPIT_KANNEL_URL ?? config.PIPIT_KANNEL_USER ?? config.PIPIT_KANNEL_SECRET],
    ['smpp', config.PIPIT_SMPP_URL ?? config.PIPIT_SMPP_ID],
  ];
  return kinds.filter(([, given]) => given !== undefined).map(([kind]) => kind);
}

/** Each fault with its remedy. */
export function faultsOfGateways(config: Config): string[] {
  const kinds = gatewaysIn(config);
  const [kind] = kinds;
  if (kind === undefined) {
    return [
      'No gateway is set. Set SMS_ACCOUNT, SMS_TOKEN and SMS_FROM for a twilio-compatible one, PIPIT_KANNEL_… for Kannel, or PIPIT_SMPP_… for SMPP.',
    ];
  }
  if (kinds.length > 1) {
    return [`Settings of several gateways are there: ${kinds.join(', ')}. Texts go out through one; leave out those of the others.`];
  }
  const lacking = Object.entries(needs[kind]).filter(([name]) => config[name as keyof Config] === undefined);
  const faults = lacking.map(([name, what]) => `${name} is not set, and the ${kind} gateway needs it. Set it to ${what}.`);
  return [...faults, ...plainlyReadable(config)];
}

const PLAIN: ReadonlySet<string> = new Set(['http:', 'smpp:']);
const HERE = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/;

function plainlyReadable(config: Config): string[] {
  if (config.PIPIT_ALLOW_PLAIN_GATEWAY) return [];
  const names = ['PIPIT_KANNEL_URL', 'PIPIT_KANNEL_REACHES', 'PIPIT_SMPP_URL'] as const;
  return names.flatMap((name) => {
    const { protocol, hostname } = new URL(config[name] ?? 'https://unset');
    if (!PLAIN.has(protocol) || HERE.test(hostname)) return [];
    return [
      `${name} sends passwords and texts over a network for all to read. Use https or ssmpp, or set PIPIT_ALLOW_PLAIN_GATEWAY=1 where a tunnel hides them.`,
    ];
  });
}
