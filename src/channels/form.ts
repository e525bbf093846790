// The form posts that gateways send: read, bounded, and refused when they are something else. What the fields mean is
// each channel's own file. Next: sms/fields.ts and ussd/fields.ts.

import bodyParser from 'body-parser';
import type { RequestHandler } from 'express';
import { answerGateway } from './answer-gateway.ts';

/** Room for 1,600 characters of a script that takes nine bytes a character in a form, and for the gateway's own fields. */
const LARGEST_FORM = '16kb';

/** Every field of the form by name. A field sent twice is an array. */
export type Form = Readonly<Record<string, string | readonly string[]>>;

const requireForm: RequestHandler = (request, response, next) => {
  // Null is no body at all; that is an empty form, and the fields will say what is missing.
  if (request.is('application/x-www-form-urlencoded') === false) {
    answerGateway(response, 415, 'send application/x-www-form-urlencoded');
    return;
  }
  next();
};

/** Middleware that leaves a {@link Form} in `request.body`, or answers 413 or 415. */
export function readForm(): RequestHandler[] {
  return [requireForm, bodyParser.urlencoded({ extended: false, limit: LARGEST_FORM })];
}

/** The form that {@link readForm} left; empty when the post had no body. */
export function formOf(request: { readonly body?: unknown }): Form {
  return (request.body ?? {}) as Form;
}
