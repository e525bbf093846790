// Requests to a server on this machine, written byte for byte on one connection after another: what a client library would mend or
// refuse to send is sent. Next: targets/webhooks.ts.

import { connect, type Socket } from 'node:net';

export interface RawAnswer {
  /** 0: the connection was closed without an answer. */
  readonly status: number;
  readonly headers: string;
  readonly body: string;
}

/** A request that cannot be whole ends with the end of the connection, so that the server does not wait for the rest. */
export type Ends = 'kept-alive' | 'closed';

export interface RawClient {
  ask(bytes: Buffer | string, ends: Ends): Promise<RawAnswer>;
  close(): void;
}

/** As long as a server may take that others on this machine keep from its processor. */
const patienceMilliseconds = 10_000;

const silent: RawAnswer = { status: 0, headers: '', body: '' };

export function rawClient(port: number): RawClient {
  let kept: Socket | undefined;
  const fresh = (): Socket => connect({ port, host: '127.0.0.1', allowHalfOpen: true });
  return {
    async ask(bytes, ends) {
      const socket = ends === 'closed' || kept === undefined || kept.destroyed ? fresh() : kept;
      if (ends === 'kept-alive') kept = socket;
      const answer = await exchange(socket, bytes, ends);
      if (ends === 'closed' || answer.status === 0 || /^connection: close/im.test(answer.headers) || socket.destroyed) {
        socket.destroy();
        if (kept === socket) kept = undefined;
      }
      return answer;
    },
    close: () => kept?.destroy(),
  };
}

function exchange(socket: Socket, bytes: Buffer | string, ends: Ends): Promise<RawAnswer> {
  return new Promise((resolve, reject) => {
    const patience = AbortSignal.timeout(patienceMilliseconds);
    patience.onabort = () => {
      socket.destroy();
      reject(new Error(`No answer came in ${patienceMilliseconds} ms.`));
    };
    let heard = '';
    const done = (answer: RawAnswer): void => {
      patience.onabort = null;
      socket.removeAllListeners();
      // What breaks a connection afterwards is nobody's business any more.
      socket.on('error', () => {});
      // The server lets a connection go that was idle for long; it is noticed only while somebody reads.
      socket.once('end', () => socket.destroy());
      socket.resume();
      resolve(answer);
    };
    socket.on('data', (data: Buffer) => {
      heard += data.toString('latin1');
      const answer = wholeAnswer(heard);
      if (answer !== null) done(answer);
    });
    socket.on('error', () => done(silent));
    socket.on('close', () => done(silent));
    socket.on('end', () => done(silent));
    if (ends === 'closed') socket.end(bytes);
    else socket.write(bytes);
  });
}

/** Null: there is more to come. */
function wholeAnswer(heard: string): RawAnswer | null {
  const end = heard.indexOf('\r\n\r\n');
  if (end < 0) return null;
  const headers = heard.slice(0, end);
  const body = heard.slice(end + 4);
  const status = Number(/^HTTP\/1\.1 (\d{3})/.exec(headers)?.[1] ?? 0);
  const length = Number(/^content-length: (\d+)/im.exec(headers)?.[1] ?? 0);
  if (body.length < length) return null;
  return { status, headers, body: Buffer.from(body, 'latin1').toString('utf8') };
}
