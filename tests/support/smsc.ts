// A message centre run from the package that the adapter uses, on a free loopback port. It takes binds, keeps what is submitted, and
// delivers what a test gives it; a test says what it answers. It decodes submits itself, with the package's own tables.

import type { AddressInfo, Socket } from 'node:net';
import type { Pdu, Session } from 'smpp';
import { STATUS, smpp } from '../../src/channels/smpp/protocol.ts';

export const CENTRE = { systemId: 'pipit', password: 'secret08', systemType: '' };

export interface Submit {
  readonly to: string;
  readonly from: string;
  readonly text: string;
  readonly id: string;
  readonly pdu: Pdu;
}

export interface Smsc {
  readonly port: number;
  /** The commands that bound, in order. */
  readonly binds: readonly string[];
  readonly submits: readonly Submit[];
  /** Commands that came besides, such as enquire_link and unbind. */
  readonly heard: readonly string[];
  /** Resolves when somebody binds after this. */
  nextBind(): Promise<void>;
  /** What a bind is answered. */
  bindStatus: number;
  /** What a submit is answered: a status, or nothing until it is let go. */
  answer: (submit: Submit) => number | Promise<number>;
  /** False: an enquire_link is not answered. */
  isAlive: boolean;
  /** Delivers to whoever bound last as a receiver; the status that it was answered, or null when the link was lost before. */
  deliver(fields: Readonly<Record<string, unknown>>): Promise<number | null>;
  /** Delivers a receipt of a submit. */
  receipt(submit: Submit, state: number): Promise<number | null>;
  /** Delivers a text, and resolves with the next text to that phone. */
  ask(from: string, text: string): Promise<string>;
  next(to: string): Promise<Submit>;
  /** Writes bytes as they are. */
  write(bytes: Buffer): void;
  cut(): void;
  close(): Promise<void>;
}

export const NUMBER_OF_CENTRE = '700';

export async function startSmsc(port = 0): Promise<Smsc> {
  const binds: string[] = [];
  const submits: Submit[] = [];
  const heard: string[] = [];
  const sockets = new Set<Socket>();
  const unread = new Map<string, Submit[]>();
  const bound: (() => void)[] = [];
  const awaited = new Map<string, ((submit: Submit) => void)[]>();
  let receiver: Session | null = null;

  const take = (submit: Submit): void => {
    submits.push(submit);
    const waiting = awaited.get(submit.to)?.shift();
    if (waiting === undefined) unread.set(submit.to, [...(unread.get(submit.to) ?? []), submit]);
    else waiting(submit);
  };
  const respond = (session: Session, pdu: Pdu, status: number, fields = {}): void => {
    session.send(pdu.response(status === STATUS.ok ? fields : { command_status: status }));
  };
  const hear = async (session: Session, pdu: Pdu): Promise<void> => {
    if (pdu.isResponse()) return;
    if (pdu.command.startsWith('bind_')) {
      const isKnown = pdu.system_id === CENTRE.systemId && pdu.password === CENTRE.password;
      const status = isKnown ? smsc.bindStatus : 0x0e;
      if (status === STATUS.ok) {
        binds.push(pdu.command);
        if (pdu.command === 'bind_transceiver') receiver = session;
        for (const tell of bound.splice(0)) tell();
      }
      respond(session, pdu, status);
    } else if (pdu.command === 'submit_sm') {
      const submit = readSubmit(pdu, `id-${submits.length + 1}`);
      const status = await smsc.answer(submit);
      respond(session, pdu, status, { message_id: submit.id });
      if (status === STATUS.ok) take(submit);
    } else {
      heard.push(pdu.command);
      if (pdu.command !== 'enquire_link' || smsc.isAlive) respond(session, pdu, STATUS.ok);
    }
  };
  const server = smpp.createServer((session) => {
    sockets.add(session.socket);
    session.on('error', () => session.destroy());
    session.on('close', () => {
      sockets.delete(session.socket);
      if (receiver === session) receiver = null;
    });
    session.on('pdu', (pdu: Pdu) => void hear(session, pdu));
  });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));

  const next = (to: string): Promise<Submit> =>
    new Promise((resolve) => {
      const there = unread.get(to)?.shift();
      if (there === undefined) awaited.set(to, [...(awaited.get(to) ?? []), resolve]);
      else resolve(there);
    });
  const smsc: Smsc = {
    port: (server.address() as AddressInfo).port,
    binds,
    submits,
    heard,
    nextBind: () => new Promise((resolve) => bound.push(resolve)),
    bindStatus: STATUS.ok,
    answer: () => STATUS.ok,
    isAlive: true,
    deliver: (fields) =>
      new Promise((resolve, reject) => {
        if (receiver === null) return reject(new Error('Nobody is bound as a receiver.'));
        const session = receiver;
        const lost = (): void => resolve(null);
        session.once('close', lost);
        session.send(new smpp.PDU('deliver_sm', fields), (answer) => {
          session.off('close', lost);
          resolve(answer.command_status);
        });
      }),
    receipt: ({ id, to }, state) =>
      smsc.deliver({ ...textFrom(`+${to}`, ''), esm_class: 0x04, receipted_message_id: id, message_state: state }),
    ask: async (from, text) => {
      const reply = next(from.slice(1));
      const status = await smsc.deliver(textFrom(from, text));
      if (status !== STATUS.ok) throw new Error(`The text was answered with status ${status}.`);
      return (await reply).text;
    },
    next,
    write: (bytes) => void receiver?.socket.write(bytes),
    cut: () => {
      for (const socket of sockets) socket.destroy();
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        for (const socket of sockets) socket.destroy();
      }),
  };
  return smsc;
}

/** The fields of a text from a phone; UCS-2 unless it is ASCII that GSM 7-bit writes alike. */
export function textFrom(from: string, text: string): Record<string, unknown> {
  const isPlain = /^[A-Za-z0-9 .,:/?*#+-]*$/.test(text);
  return {
    source_addr_ton: 1,
    source_addr_npi: 1,
    source_addr: from.replace(/^\+/, ''),
    destination_addr: NUMBER_OF_CENTRE,
    data_coding: isPlain ? 0 : 8,
    short_message: isPlain ? Buffer.from(text, 'latin1') : Buffer.from(text, 'utf16le').swap16(),
  };
}

function readSubmit(pdu: Pdu, id: string): Submit {
  const { message } = pdu.short_message as { message: string | Buffer };
  const payload = pdu.message_payload;
  const ours = Buffer.isBuffer(payload) ? decodePayload(payload, Number(pdu.data_coding)) : String(message);
  return { to: String(pdu.destination_addr), from: String(pdu.source_addr), text: ours, id, pdu };
}

/** By a submit of the same bytes in pieces, which the package decodes. */
function decodePayload(bytes: Buffer, coding: number): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += 140) {
    const piece = new smpp.PDU('submit_sm', { data_coding: coding, short_message: bytes.subarray(at, at + 140) }).toBuffer();
    const read = new (smpp.PDU as unknown as new (buffer: Buffer) => Pdu)(piece);
    pieces.push(String((read.short_message as { message: string }).message));
  }
  return pieces.join('');
}

/** The fields of a piece of a USSD call. */
export function ussdFrom(from: string, session: Buffer, operation: number, text: string): Record<string, unknown> {
  return { ...textFrom(from, text), service_type: 'USSD', ussd_service_op: operation, its_session_info: session };
}
