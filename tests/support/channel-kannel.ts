// Kannel as it speaks to the doors: what a smsbox 1.4.5 posts, header for header. Next: tests/channels/kannel.

import { once } from 'node:events';
import { type IncomingMessage, request } from 'node:http';
import { text } from 'node:stream/consumers';
import { roomFor } from '../../src/channels/room.ts';
import { type Answer, type Doors, type DoorsSettings, openDoors, SECRET, WORKER } from './channel-doors.ts';

export const KANNEL = { verifySecret: true, secret: SECRET } as const;

export const basic = (secret: string): string => `Basic ${Buffer.from(`pipit:${secret}`).toString('base64')}`;

export function openKannelDoors({ atATime = 10, ...settings }: DoorsSettings & { readonly atATime?: number } = {}): Promise<Doors> {
  return openDoors({ kannel: { proof: KANNEL, room: roomFor(atATime) }, ...settings });
}

/** What is sent of a text; a header that is undefined is left out. */
export interface KannelText {
  readonly path?: string;
  readonly method?: string;
  readonly body?: string | Buffer;
  readonly headers?: Readonly<Record<string, string | undefined>>;
}

export async function fromKannel(
  { url }: Pick<Doors, 'url'>,
  { path = '/kannel?id=6047bf14-d9f5-4d69-a966-eae6c3e175b5', method = 'POST', body = '', headers = {} }: KannelText,
): Promise<Answer> {
  const all = {
    authorization: basic(SECRET),
    'content-type': 'text/plain; charset="UTF-8"',
    'x-kannel-from': WORKER,
    'x-kannel-to': '700',
    'x-kannel-coding': '0',
    ...headers,
  };
  const given = Object.entries(all).filter((pair): pair is [string, string] => pair[1] !== undefined);
  const outgoing = request(`${url}${path}`, { method, agent: false, headers: Object.fromEntries(given) });
  outgoing.end(body);
  const [response] = (await once(outgoing, 'response')) as [IncomingMessage];
  return { status: response.statusCode, body: await text(response), headers: response.headers };
}
