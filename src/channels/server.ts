// The web server: which doors there are, and what a stranger gets. It binds no port (listen.ts does) and answers no message
// itself (sms/webhook.ts, kannel/webhook.ts, ussd/webhook.ts). Addresses are never logged: one of them holds the USSD secret.

import express, { type ErrorRequestHandler, type Express, type RequestHandler } from 'express';
import helmet from 'helmet';
import type { Door, DoorLog } from './door.ts';
import { describeFault } from './fault.ts';
import { readForm } from './form.ts';
import type { KannelProof } from './kannel/proof.ts';
import { KANNEL_STATUS_PATH, kannelStatus } from './kannel/status.ts';
import { KANNEL_PATH, kannelWebhook, readText } from './kannel/webhook.ts';
import type { Room } from './room.ts';
import type { SecretProof } from './secret.ts';
import type { SmsProof } from './sms/signature.ts';
import { STATUS_PATH, type StatusDoor, statusWebhook } from './sms/status.ts';
import { smsWebhook } from './sms/webhook.ts';
import { type UssdScreen, ussdWebhook } from './ussd/webhook.ts';
import { type Watching, watchingDoors } from './watching/watching.ts';

export interface ServerParts extends Door {
  /** Left out: there is no SMS door. */
  readonly sms?: SmsProof;
  /** Left out: there are no doors for Kannel. */
  readonly kannel?: { readonly proof: KannelProof; readonly room: Room };
  /** Left out: delivery reports are not taken. */
  readonly report?: StatusDoor['report'];
  /** Left out: there is no USSD door. */
  readonly ussd?: SecretProof & UssdScreen;
  /** Left out: only /healthz is there. */
  readonly watching?: Watching;
  /** Other pages under a path of their own, such as the coordinator's. */
  readonly mounts?: Readonly<Record<string, RequestHandler>>;
}

/** The application, ready to listen. Doors that are not configured answer 404. */
export function buildServer(parts: ServerParts): Express {
  const app = express();
  app.disable('x-powered-by');
  gatewayDoors(app, parts);
  app.use(helmet());
  watchingDoors(app, parts.watching);
  for (const [path, handler] of Object.entries(parts.mounts ?? {})) app.use(path, handler);
  app.use((_request, response) => {
    response.status(404).type('text/plain').send('not found');
  });
  app.use(answerFault(parts.log));
  return app;
}

/** Before the headers that tell a browser what it may do: a gateway is none, and most of what is answered goes to one. */
function gatewayDoors(app: Express, parts: ServerParts): void {
  if (parts.sms) app.post('/sms', readForm(), smsWebhook(parts, parts.sms));
  if (parts.sms && parts.report) app.post(STATUS_PATH, readForm(), statusWebhook({ log: parts.log, report: parts.report }, parts.sms));
  if (parts.kannel) app.post(KANNEL_PATH, readText(), kannelWebhook(parts, parts.kannel.proof, parts.kannel.room));
  if (parts.kannel && parts.report) app.get(KANNEL_STATUS_PATH, kannelStatus({ log: parts.log, report: parts.report }, parts.kannel.proof));
  if (parts.ussd) app.post(['/ussd', '/ussd/:secret'], readForm(), ussdWebhook(parts, parts.ussd, parts.ussd));
}

/** What was thrown on the way to a door: a body that is too large or unreadable is the sender's mistake, all else is ours. */
function answerFault(log: DoorLog): ErrorRequestHandler {
  return (error, _request, response, next) => {
    if (response.headersSent) {
      next(error);
      return;
    }
    const status: unknown = error instanceof Error && 'status' in error ? error.status : undefined;
    if (typeof status === 'number' && status >= 400 && status < 500) {
      log.warn({ status }, 'a request could not be read');
      response.status(status).type('text/plain').send('the request could not be read');
      return;
    }
    log.error({ fault: describeFault(error) }, 'a request failed');
    response.status(500).type('text/plain').send('failed');
  };
}
