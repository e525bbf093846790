// SMPP as the gateway: one link to the centre, which texts out go through and, where this process receives, messages come in by.
// Next: gateway.ts; serve.ts, which brings the door.

import type { DoorLog } from '../channels/door.ts';
import { turnstile } from '../channels/pace.ts';
import type { SmppDoor } from '../channels/smpp/door.ts';
import { keepLink } from '../channels/smpp/link.ts';
import { smppSender } from '../channels/smpp/send.ts';
import { type Bound, openSession } from '../channels/smpp/session.ts';
import { type Submit, submitter } from '../channels/smpp/window.ts';
import { machineTiming as timing } from '../channels/timing.ts';
import type { SendText } from '../conversation/ports.ts';
import type { Config } from './config.ts';

const times = { timing, answerMilliseconds: 10_000, enquireMilliseconds: 30_000 };
const standardPorts = { smpp: 2775, ssmpp: 3550 } as const;

export interface SmppGateway {
  readonly send: SendText;
  readonly submit: Submit;
  /** Whether the link to the centre stands. */
  isUp(): boolean;
  /** Makes the link. Takes door: left out, nothing is delivered to this process. */
  open(door?: SmppDoor): void;
  close(): Promise<void>;
}

/** Takes config: without faults of its gateway. */
export function smppGateway(config: Config, from: string, log: DoorLog): SmppGateway {
  const url = new URL(config.PIPIT_SMPP_URL ?? '');
  const isTls = url.protocol === 'ssmpp:';
  const centre = {
    host: url.hostname,
    port: url.port === '' ? standardPorts[isTls ? 'ssmpp' : 'smpp'] : Number(url.port),
    isTls,
    systemId: config.PIPIT_SMPP_ID ?? '',
    password: config.PIPIT_SMPP_PASSWORD ?? '',
    systemType: config.PIPIT_SMPP_TYPE,
  };
  let door: SmppDoor | undefined;
  let isClosed = false;
  let begin = (): void => {};
  const begun = new Promise<void>((resolve) => {
    begin = resolve;
  });
  const link = keepLink({
    open: async (): Promise<Bound> => {
      await begun;
      return isClosed ? { kind: 'refused', status: null } : openSession(centre, times, door?.take);
    },
    timing,
    log,
    lost: () => door?.linkLost(),
  });
  const pass = turnstile(config.PIPIT_TEXTS_A_SECOND, timing);
  const submitAtOnce = submitter(link, config.PIPIT_SMPP_WINDOW, timing);
  // Replies and screens are submits as well, and the contract counts them all.
  const submit: Submit = async (fields) => {
    await pass();
    return submitAtOnce(fields);
  };
  return {
    send: smppSender(submit, from),
    submit,
    isUp: () => link.isUp(),
    open: (given) => {
      door = given;
      begin();
    },
    close: async () => {
      isClosed = true;
      begin();
      await link.close();
    },
  };
}
