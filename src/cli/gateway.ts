// The gateway that texts go out through, as the settings choose it. Next: gateway-faults.ts; programme.ts, which opens it.

import { randomUUID } from 'node:crypto';
import type { DoorLog } from '../channels/door.ts';
import { kannelSender } from '../channels/kannel/send.ts';
import { paced } from '../channels/pace.ts';
import { twilioCompatibleSender } from '../channels/sms/send.ts';
import { statusAddress } from '../channels/sms/status.ts';
import { terminalSender } from '../channels/sms/terminal.ts';
import { machineTiming } from '../channels/timing.ts';
import type { SendText } from '../conversation/ports.ts';
import { textReference } from '../conversation/text-reference.ts';
import type { Config } from './config.ts';
import { faultsOfGateways, type GatewayKind, gatewaysIn } from './gateway-faults.ts';
import { type SmppGateway, smppGateway } from './smpp-gateway.ts';

const timeoutMilliseconds = 10_000;

export interface Gateway {
  readonly send: SendText;
  /** Where SMPP is spoken: to be opened by whoever has a door for it, or has none. */
  readonly smpp?: SmppGateway;
  close(): Promise<void>;
}

/** Without a gateway, which only development allows, texts go to the terminal. */
export function openGateway(config: Config, log: DoorLog): Gateway {
  const [kind] = gatewaysIn(config);
  const { SMS_FROM: from } = config;
  const close = async (): Promise<void> => {};
  if (kind === undefined || from === undefined || faultsOfGateways(config).length > 0)
    return { send: terminalSender((line) => process.stdout.write(`${line}\n`)), close };
  if (kind !== 'smpp') return { send: paced(senders[kind](config, from), config.PIPIT_TEXTS_A_SECOND, machineTiming), close };
  const smpp = smppGateway(config, from, log);
  return { send: smpp.send, smpp, close: smpp.close };
}

const senders: Readonly<Record<Exclude<GatewayKind, 'smpp'>, (config: Config, from: string) => SendText>> = {
  'twilio-compatible': (config, from) => {
    const { PUBLIC_URL: publicUrl } = config;
    return twilioCompatibleSender({
      baseUrl: config.SMS_API,
      accountSid: config.SMS_ACCOUNT ?? '',
      authToken: config.SMS_TOKEN ?? '',
      from,
      timeoutMilliseconds,
      ...(publicUrl === undefined ? {} : { statusCallback: (key) => statusAddress(publicUrl, textReference(key)) }),
    });
  },
  kannel: (config, from) => {
    const baseUrl = config.PIPIT_KANNEL_REACHES ?? config.PUBLIC_URL;
    const secret = config.PIPIT_KANNEL_SECRET;
    return kannelSender({
      url: config.PIPIT_KANNEL_URL ?? '',
      user: config.PIPIT_KANNEL_USER ?? '',
      password: config.PIPIT_KANNEL_PASSWORD ?? '',
      from,
      newId: randomUUID,
      timeoutMilliseconds,
      ...(baseUrl === undefined || secret === undefined ? {} : { reports: { baseUrl, secret, reference: textReference } }),
    });
  },
};
