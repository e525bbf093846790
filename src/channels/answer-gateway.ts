// What a gateway is answered: a status, a text and its type. It keeps no copy that a tag could spare it, as a browser does, so no
// reply is hashed for one.

import type { Response } from 'express';

export function answerGateway(response: Response, status: number, text: string, type = 'text/plain'): void {
  response.status(status).type(type).end(text);
}

/** A post whose form is not the gateway's. Takes  fields: by name only, never what was in them. */
export function refuseFields(response: Response, fields: readonly string[]): void {
  answerGateway(response, 400, `fields missing, sent twice or malformed: ${fields.join(', ')}`);
}
