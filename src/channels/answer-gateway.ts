// What a gateway is answered: a status, a text and its type. It keeps no copy that a tag could spare it, as a browser does, so no
// reply is hashed for one.

import type { Response } from 'express';

export function answerGateway(response: Response, status: number, text: string, type = 'text/plain'): void {
  response.status(status).type(type).end(text);
}
