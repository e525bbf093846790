// What a gateway's answer, or its silence, says about a text. The gateway's own sentences are never kept: they quote the
// number that the text was for. Next: send.ts, which asks.

import { z } from 'zod';

const accepted = z.object({ sid: z.string().min(1) });
const refused = z.object({ code: z.number().int() });

/** The gateway's id of the text; undefined when the answer is no such thing (a login page also says 200). */
export function readSid(answer: string): string | undefined {
  return accepted.safeParse(parseJson(answer)).data?.sid;
}

/** Why a text was refused: the HTTP status, with the gateway's own code when it gives one. */
export function refusalReason(status: number, answer: string): string {
  const code = refused.safeParse(parseJson(answer)).data?.code;
  return code === undefined ? `http ${status}` : `http ${status}, gateway code ${code}`;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Calls that come before the first byte of a request. */
const BEFORE_SENDING: ReadonlySet<unknown> = new Set(['connect', 'getaddrinfo']);
const CONNECT_TIMEOUT = 'UND_ERR_CONNECT_TIMEOUT';
/** The gateway's certificate was refused in the handshake, before the request. */
const CERTIFICATE = /CERT|^ERR_TLS_|^UNABLE_TO_/;

/** Whether the fault came before anything was sent: name not found, connection refused, certificate refused. */
export function neverLeft(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  // Two addresses of one host were tried: none of them may have been reached.
  if (error instanceof AggregateError) return error.errors.length > 0 && error.errors.every(neverLeft);
  if ('syscall' in error && BEFORE_SENDING.has(error.syscall)) return true;
  if ('code' in error && typeof error.code === 'string') {
    if (error.code === CONNECT_TIMEOUT || CERTIFICATE.test(error.code)) return true;
  }
  return neverLeft(error.cause);
}
