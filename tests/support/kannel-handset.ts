// Phones at Kannel's fake centre. It speaks one line a text: sender, receiver, how the rest is written, the rest. Long texts come
// in parts with a header (3GPP TS 23.040, 9.2.3.24.1) and are joined here as a phone does. Next: kannel-server.ts.

import { once } from 'node:events';
import { connect } from 'node:net';

export interface Handsets {
  /** Sends one text, whatever comes of it. */
  say(from: string, text: string, how?: Writing): void;
  /** Sends one text, and resolves with the next one that comes to this phone. */
  ask(from: string, text: string, how?: Writing): Promise<string>;
  /** Sends a text in as many parts. */
  askInParts(from: string, parts: readonly string[]): Promise<string>;
  /** The next text that comes to this phone and was not awaited yet. */
  next(to: string): Promise<string>;
  /** Parts that each text to this phone came in, in order. */
  partsOf(to: string): readonly number[];
  close(): void;
}

export type Writing = 'text' | 'ucs2';

const NUMBER_OF_OURS = '700';

/** Takes ucs2: phones whose texts come in UCS-2; the centre does not say so of parts. */
export async function openHandsets(port: number, ucs2: ReadonlySet<string> = new Set()): Promise<Handsets> {
  const socket = connect({ port, host: '127.0.0.1' });
  await once(socket, 'connect');
  const come = new Map<string, string[]>();
  const awaited = new Map<string, ((text: string) => void)[]>();
  const counted = new Map<string, number[]>();
  const pieces = new Map<string, Map<number, Buffer>>();
  let unread = '';
  let reference = 0;

  const arrive = (to: string, bytes: Buffer, isWide: boolean, parts: number): void => {
    counted.set(to, [...(counted.get(to) ?? []), parts]);
    const text = isWide ? new TextDecoder('utf-16be').decode(bytes) : bytes.toString('utf8');
    const waiting = awaited.get(to)?.shift();
    if (waiting === undefined) come.set(to, [...(come.get(to) ?? []), text]);
    else waiting(text);
  };
  const read = (line: string): void => {
    const [, to = '', kind, ...rest] = line.split(' ');
    if (kind === 'text') arrive(to, Buffer.from(rest.join(' '), 'latin1'), false, 1);
    else if (kind !== 'udh') arrive(to, bytesOf(rest.join(' ')), kind === 'ucs-2', 1);
    else {
      const [header = '', , data = ''] = rest;
      const [, , , from = 0, total = 0, part = 0] = bytesOf(header);
      const name = `${to} ${from}`;
      const known = pieces.get(name) ?? new Map<number, Buffer>();
      pieces.set(name, known.set(part, bytesOf(data)));
      if (known.size < total) return;
      pieces.delete(name);
      const inOrder = [...known].sort(([one], [other]) => one - other).map(([, bytes]) => bytes);
      arrive(to, Buffer.concat(inOrder), ucs2.has(to), total);
    }
  };
  socket.on('data', (chunk: Buffer) => {
    const lines = (unread + chunk.toString('latin1')).split('\n');
    unread = lines.pop() ?? '';
    for (const line of lines) read(line);
  });

  const next = (to: string): Promise<string> =>
    new Promise((resolve) => {
      const there = come.get(to)?.shift();
      if (there === undefined) awaited.set(to, [...(awaited.get(to) ?? []), resolve]);
      else resolve(there);
    });
  const write = (from: string, rest: string): void => void socket.write(`${from} ${NUMBER_OF_OURS} ${rest}\n`);
  const say: Handsets['say'] = (from, text, how = 'text') =>
    write(from, how === 'text' ? `text ${text}` : `ucs2 ${percent(Buffer.from(text, 'utf16le').swap16())}`);
  return {
    say,
    ask: (from, text, how) => {
      say(from, text, how);
      return next(from);
    },
    askInParts: (from, parts) => {
      reference += 1;
      parts.forEach((part, at) => {
        write(from, `udh-text ${percent(Buffer.from([5, 0, 3, reference, parts.length, at + 1]))} ${part}`);
      });
      return next(from);
    },
    next,
    partsOf: (to) => counted.get(to) ?? [],
    close: () => socket.destroy(),
  };
}

const percent = (bytes: Buffer): string => [...bytes].map((byte) => `%${byte.toString(16).padStart(2, '0')}`).join('');

function bytesOf(encoded: string): Buffer {
  const raw = encoded.replace(/\+/g, ' ').replace(/%([0-9A-Fa-f]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  return Buffer.from(raw, 'latin1');
}
