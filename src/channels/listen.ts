// A port, and how to leave it: no new connections, requests in flight are finished, then nothing is left open.
// What is served is server.ts's business.

import { createServer, type RequestListener, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Gateways give up after fifteen seconds, so nobody is left to read a later answer. */
const GATEWAY_PATIENCE_MILLISECONDS = 15_000;

export interface Listening {
  readonly port: number;
  readonly url: string;
  /** Resolves when every request in flight was answered and every connection is closed. Twice is once. */
  close(): Promise<void>;
}

/**
 * Serves the application on a port of this machine. Takes 0 for any free port.
 *
 * Errors   a port that is taken or not allowed, with the remedy.
 */
export async function listen(app: RequestListener, port: number, host = '127.0.0.1'): Promise<Listening> {
  const server = createServer({ requestTimeout: GATEWAY_PATIENCE_MILLISECONDS }, app);
  const inFlight = new Set<ServerResponse>();
  let closing = false;
  server.on('request', (_request, response) => {
    inFlight.add(response);
    response.on('close', () => inFlight.delete(response));
  });
  // Before the application: an answer on a kept-alive connection must say that the connection ends with it.
  server.prependListener('request', (_request, response) => {
    if (closing) response.setHeader('connection', 'close');
  });

  await new Promise<void>((resolve, reject) => {
    server.once('error', (error) => {
      reject(new Error(`Port ${port} on ${host} cannot be opened. Stop what uses it, or set another port.`, { cause: error }));
    });
    server.listen(port, host, resolve);
  });
  const address = server.address() as AddressInfo;

  const finish = () =>
    new Promise<void>((resolve, reject) => {
      closing = true;
      for (const response of inFlight) if (!response.headersSent) response.setHeader('connection', 'close');
      server.close((error) => (error ? reject(error) : resolve()));
      server.closeIdleConnections();
      setTimeout(() => server.closeAllConnections(), GATEWAY_PATIENCE_MILLISECONDS).unref();
    });
  let closed: Promise<void> | undefined;

  return {
    port: address.port,
    url: `http://${host}:${address.port}`,
    close() {
      closed ??= finish();
      return closed;
    },
  };
}
