// One connection to the centre, from its bind to its end. It answers what the centre asks, looks now and then whether the centre is
// still there, and gives up a link that is silent or speaks nonsense: whoever holds it (link.ts) makes another. Nothing that comes in
// may throw, for the package calls us from the socket. Next: protocol.ts.

import type { Pdu } from 'smpp';
import type { Timing } from '../timing.ts';
import { STATUS, smpp } from './protocol.ts';

export interface Centre {
  readonly host: string;
  readonly port: number;
  readonly isTls: boolean;
  readonly systemId: string;
  readonly password: string;
  readonly systemType: string;
}

/** Takes a delivered message; resolves with what the centre is told of it. */
export type Take = (pdu: Pdu) => Promise<number>;

export type Answer =
  | { readonly kind: 'answered'; readonly status: number; readonly messageId: string }
  /** Nothing left this machine. */
  | { readonly kind: 'not-sent' }
  /** No answer came, or the link was lost before. */
  | { readonly kind: 'lost' };

export interface SmppSession {
  submit(fields: Readonly<Record<string, unknown>>): Promise<Answer>;
  /** Takes leave of the centre; resolves when the connection is closed. */
  unbind(): Promise<void>;
  readonly ended: Promise<void>;
}

export type Bound =
  | { readonly kind: 'bound'; readonly session: SmppSession }
  | { readonly kind: 'refused'; readonly status: number | null };

export interface SessionTimes {
  readonly timing: Timing;
  readonly answerMilliseconds: number;
  readonly enquireMilliseconds: number;
}

const SMPP_3_4 = 0x34;

/**
 * Connects and binds.
 *
 * Takes    take: left out, only texts out are spoken of, and the centre delivers nothing here.
 * Returns  refused: with the centre's status, or null when it was not reached or did not answer. Never throws.
 */
export async function openSession(centre: Centre, times: SessionTimes, take?: Take): Promise<Bound> {
  const session = smpp.connect({ host: centre.host, port: centre.port, tls: centre.isTls });
  const waiting = new Set<() => void>();
  const ended = new Promise<void>((resolve) => session.once('close', () => resolve()));
  // What cannot be read leaves the package between two messages, so nothing after it could be trusted.
  session.on('error', () => session.destroy());
  session.on('close', () => {
    for (const lost of [...waiting]) lost();
  });

  const request = (command: string, fields: Readonly<Record<string, unknown>>): Promise<Pdu | 'not-sent' | 'lost'> =>
    new Promise((resolve) => {
      const settle = (answer: Pdu | 'not-sent' | 'lost'): void => {
        callOff();
        waiting.delete(lost);
        resolve(answer);
      };
      const lost = (): void => settle('lost');
      const callOff = times.timing.after(times.answerMilliseconds, lost);
      waiting.add(lost);
      if (session.socket.destroyed || !session.send(new smpp.PDU(command, fields), settle)) settle('not-sent');
    });
  const respond = (pdu: Pdu, status: number = STATUS.ok): void => {
    if (!session.socket.destroyed) session.send(pdu.response(status === STATUS.ok ? {} : { command_status: status }));
  };
  const hear = async (pdu: Pdu): Promise<void> => {
    switch (pdu.command) {
      case 'enquire_link':
        respond(pdu);
        break;
      case 'unbind':
        respond(pdu);
        session.close();
        break;
      case 'deliver_sm':
        respond(pdu, await (take === undefined ? STATUS.notNow : take(pdu).catch(() => STATUS.notNow)));
        break;
      case 'data_sm':
        respond(pdu, STATUS.invalidCommand);
        break;
    }
  };
  session.on('pdu', (pdu: Pdu) => {
    if (!pdu.isResponse()) hear(pdu).catch(() => session.destroy());
  });

  const bound = await request(take === undefined ? 'bind_transmitter' : 'bind_transceiver', {
    system_id: centre.systemId,
    password: centre.password,
    system_type: centre.systemType,
    interface_version: SMPP_3_4,
  });
  if (typeof bound === 'string' || bound.command_status !== STATUS.ok) {
    session.destroy();
    await ended;
    return { kind: 'refused', status: typeof bound === 'string' ? null : bound.command_status };
  }
  let callOffEnquiry = (): void => {};
  const enquireLater = (): void => {
    callOffEnquiry = times.timing.after(times.enquireMilliseconds, () => {
      void request('enquire_link', {}).then((answer) => {
        if (answer === 'lost') session.destroy();
        else if (answer !== 'not-sent') enquireLater();
      });
    });
  };
  enquireLater();
  session.on('close', () => callOffEnquiry());

  return {
    kind: 'bound',
    session: {
      submit: async (fields) => {
        const answer = await request('submit_sm', fields);
        if (typeof answer === 'string') return { kind: answer };
        const { message_id: messageId } = answer;
        return { kind: 'answered', status: answer.command_status, messageId: typeof messageId === 'string' ? messageId : '' };
      },
      unbind: async () => {
        await request('unbind', {});
        session.destroy();
        await ended;
      },
      ended,
    },
  };
}
