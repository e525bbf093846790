// The doors on a free port of this machine, with what they heard and what they logged. Numbers and places are invented.
// Next: tests/channels.

import { once } from 'node:events';
import { type IncomingHttpHeaders, type IncomingMessage, request } from 'node:http';
import { text } from 'node:stream/consumers';
import { pino } from 'pino';
import { onTestFinished } from 'vitest';
import { listen } from '../../src/channels/listen.ts';
import { buildServer, type ServerParts } from '../../src/channels/server.ts';
import type { Incoming, Outgoing } from '../../src/conversation/ports.ts';

export const PUBLIC_URL = 'https://pipit.example.org';
export const AUTH_TOKEN = '12345';
export const SECRET = 'an-invented-secret-of-the-gateway';

/** The invented worker of these tests. */
export const WORKER = '+254700000321';

export interface Doors {
  readonly url: string;
  readonly heard: readonly Incoming[];
  /** Log lines as pino wrote them. */
  readonly logged: readonly string[];
}

export interface DoorsSettings extends Omit<Partial<ServerParts>, 'log' | 'receive'> {
  readonly reply?: (incoming: Incoming) => Outgoing | Promise<Outgoing>;
}

/** Opens both doors and closes them when the test is over. */
export async function openDoors({ reply, ...settings }: DoorsSettings = {}): Promise<Doors> {
  const heard: Incoming[] = [];
  const logged: string[] = [];
  const log = pino({ level: 'info' }, { write: (line: string) => logged.push(line) });
  const app = buildServer({
    sms: { verifySignature: true, authToken: AUTH_TOKEN, publicUrl: PUBLIC_URL },
    ussd: {
      verifySecret: true,
      secret: SECRET,
      fits: (screen) => screen.length <= 160,
      busyText: () => 'busy',
      brokenText: () => 'broken',
    },
    ...settings,
    log,
    receive: async (incoming) => {
      heard.push(incoming);
      return reply ? reply(incoming) : { text: 'Heard.', ends: false };
    },
  });
  const listening = await listen(app, 0);
  onTestFinished(() => listening.close());
  return { url: listening.url, heard, logged };
}

export type FormFields = Readonly<Record<string, string>> | readonly (readonly [string, string])[];

export interface Answer {
  readonly status: number | undefined;
  readonly body: string;
  readonly headers: IncomingHttpHeaders;
}

/** Posts a form on a connection of its own. Not with fetch, which would write the Host header itself. */
export async function postForm(url: string, form: FormFields, headers: Readonly<Record<string, string>> = {}): Promise<Answer> {
  const pairs = (Array.isArray(form) ? form : Object.entries(form)) as [string, string][];
  const outgoing = request(url, {
    method: 'POST',
    agent: false,
    headers: { 'content-type': 'application/x-www-form-urlencoded', ...headers },
  });
  outgoing.end(new URLSearchParams(pairs).toString());
  const [response] = (await once(outgoing, 'response')) as [IncomingMessage];
  return { status: response.statusCode, body: await text(response), headers: response.headers };
}
