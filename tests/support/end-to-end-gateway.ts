// A gateway for texts out, as far as pipit speaks to one: takes each text, keeps it, and gives it an id.
// It stands where the Twilio-compatible API would, and checks the account's login as that does.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';

export interface TextTaken {
  readonly to: string;
  readonly from: string;
  readonly body: string;
  /** What the sender calls the text by, a digest of its key; empty when it names no address for reports. */
  readonly reference: string;
  /** What the gateway calls it by, in its answer. */
  readonly id: string;
  /** Epoch milliseconds. */
  readonly at: number;
}

export interface FakeGateway {
  readonly port: number;
  readonly url: string;
  /** Every text taken so far, in order. */
  readonly taken: readonly TextTaken[];
  /** Called with each text when it was taken. */
  onText: (text: TextTaken) => void;
  takenFor(phone: string): string[];
  /** So many texts from now on are answered with this status, and not taken. */
  refuseNext(status: number, texts: number): void;
  /** How many texts were refused. */
  readonly refused: number;
  /** Texts to this phone are left without an answer until it is let go; how many wait. */
  holdFor(phone: string): { waiting(): number; letGo(): void };
  close(): Promise<void>;
}

export async function startFakeGateway(account: string, token: string): Promise<FakeGateway> {
  const taken: TextTaken[] = [];
  let refusing = { status: 0, texts: 0 };
  let refused = 0;
  const held = new Map<string, (() => void)[]>();
  const login = `Basic ${Buffer.from(`${account}:${token}`).toString('base64')}`;
  const server = createServer(async (request, response) => {
    const form = new URLSearchParams(await text(request));
    const isOurs =
      request.method === 'POST' &&
      request.url === `/2010-04-01/Accounts/${account}/Messages.json` &&
      request.headers.authorization === login;
    response.setHeader('content-type', 'application/json');
    if (!isOurs) {
      response.writeHead(401).end(JSON.stringify({ code: 20003 }));
      return;
    }
    if (refusing.texts > 0) {
      refusing = { ...refusing, texts: refusing.texts - 1 };
      refused += 1;
      response.writeHead(refusing.status).end(JSON.stringify({ code: 20429 }));
      return;
    }
    const waiting = held.get(form.get('To') ?? '');
    if (waiting !== undefined) await new Promise<void>((letGo) => waiting.push(letGo));
    const named = (field: string): string => form.get(field) ?? '';
    const reference = new URLSearchParams(named('StatusCallback').split('?')[1]).get('text') ?? '';
    const one = { to: named('To'), from: named('From'), body: named('Body'), reference, id: `SM${taken.length + 1}`, at: Date.now() };
    taken.push(one);
    gateway.onText(one);
    response.writeHead(201).end(JSON.stringify({ sid: one.id }));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const gateway: FakeGateway = {
    port,
    url: `http://127.0.0.1:${port}`,
    taken,
    onText: () => {},
    refuseNext: (status, texts) => {
      refusing = { status, texts };
    },
    get refused() {
      return refused;
    },
    takenFor: (phone) => taken.filter(({ to }) => to === phone).map(({ body }) => body),
    holdFor: (phone) => {
      const waiting: (() => void)[] = [];
      held.set(phone, waiting);
      return {
        waiting: () => waiting.length,
        letGo: () => {
          held.delete(phone);
          for (const letGo of waiting.splice(0)) letGo();
        },
      };
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
  return gateway;
}
