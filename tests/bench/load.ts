// The load: as many phones as the round has, each on one kept-alive connection, each sending its next text when the last was
// answered. All requests are written and signed before the clock starts. A process of its own, asked over IPC by run.ts.

import { connect, type Socket } from 'node:net';
import { getExpectedTwilioSignature } from 'twilio/lib/webhooks/webhooks.js';

export interface Round {
  /** The phones are dealt out over them. */
  readonly ports: readonly number[];
  readonly publicUrl: string;
  readonly token: string;
  /** By phone: its texts in order. */
  readonly phones: readonly { readonly from: string; readonly texts: readonly string[] }[];
  /** Makes the ids of this round's texts new. */
  readonly name: string;
  /** Texts that all phones together send in a second, at even distances once every one has begun; left out: each as soon as its last was answered. */
  readonly perSecond?: number;
}

export interface Measured {
  readonly turns: number;
  readonly seconds: number;
  readonly refused: number;
  readonly p50Milliseconds: number;
  readonly p99Milliseconds: number;
}

function requestFor(round: Round, from: string, text: string, number: number): string {
  const sid = `SM${round.name}${from.slice(1)}${number}`;
  // The fields of a Twilio-compatible post; those that are not read travel and are signed all the same.
  const form: Record<string, string> = {
    ToCountry: 'KE',
    ToState: '',
    SmsMessageSid: sid,
    NumMedia: '0',
    ToCity: '',
    FromZip: '',
    SmsSid: sid,
    FromState: '',
    SmsStatus: 'received',
    FromCity: '',
    Body: text,
    FromCountry: 'KE',
    To: '+254700000999',
    ToZip: '',
    NumSegments: '1',
    MessageSid: sid,
    AccountSid: 'AC00000000000000000000000000000000',
    From: from,
    ApiVersion: '2010-04-01',
  };
  const body = new URLSearchParams(form).toString();
  const signature = getExpectedTwilioSignature(round.token, `${round.publicUrl}/sms`, form);
  return `POST /sms HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: application/x-www-form-urlencoded\r\nx-twilio-signature: ${signature}\r\ncontent-length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
}

interface Answered {
  readonly status: number;
  /** From when it was to be sent: one that waits for the answer before it counts its waiting. */
  readonly milliseconds: number;
}

/**
 * At a given rate each phone begins so many texts after the one before it: over the time of one examination, since workers do not all
 * end theirs in the same second. Odd, so that no two of a power of two phones ever send at once.
 */
const startsApart = 17;

/** When the text of this number is to be sent; undefined: when the last was answered. */
type DueAt = (number: number) => number | undefined;

/** Sends the requests one after another on one connection. */
function play(port: number, requests: readonly string[], dueAt: DueAt): Promise<Answered[]> {
  return new Promise((resolve, reject) => {
    const answers: Answered[] = [];
    const socket: Socket = connect(port, '127.0.0.1').setNoDelay();
    let received = '';
    let sentAt = 0;
    const sendNext = (): void => {
      const request = requests[answers.length];
      if (request === undefined) {
        socket.end();
        resolve(answers);
        return;
      }
      const now = performance.now();
      sentAt = dueAt(answers.length) ?? now;
      if (sentAt > now) setTimeout(() => socket.write(request), sentAt - now);
      else socket.write(request);
    };
    socket.on('connect', sendNext);
    socket.on('error', reject);
    socket.on('data', (bytes) => {
      received += bytes.toString('latin1');
      const head = received.indexOf('\r\n\r\n');
      if (head < 0) return;
      const length = Number(/content-length: (\d+)/i.exec(received.slice(0, head))?.[1]);
      if (!(received.length >= head + 4 + length)) return;
      answers.push({ status: Number(received.slice(9, 12)), milliseconds: performance.now() - sentAt });
      received = '';
      sendNext();
    });
  });
}

process.on('message', async (round: Round) => {
  const requests = round.phones.map(({ from, texts }) => texts.map((text, number) => requestFor(round, from, text, number)));
  const began = performance.now();
  const apart = round.perSecond === undefined ? undefined : 1000 / round.perSecond;
  const dueAt =
    (phone: number): DueAt =>
    (number) =>
      apart === undefined ? undefined : began + (number * round.phones.length + phone * startsApart) * apart;
  const answers = (
    await Promise.all(requests.map((ones, phone) => play(round.ports[phone % round.ports.length] ?? 0, ones, dueAt(phone))))
  ).flat();
  const seconds = (performance.now() - began) / 1000;
  const times = answers.map(({ milliseconds }) => milliseconds).sort((a, b) => a - b);
  const at = (share: number): number => times[Math.floor(share * (times.length - 1))] ?? Number.NaN;
  const refused = answers.filter(({ status }) => status !== 200).length;
  process.send?.({ turns: answers.length, seconds, refused, p50Milliseconds: at(0.5), p99Milliseconds: at(0.99) } satisfies Measured);
});
