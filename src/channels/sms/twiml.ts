// The XML a Twilio-compatible gateway reads a reply from. Only what we need of it: one message, or none. Next: webhook.ts.

import { toPlainText } from '../plain-text.ts';

const DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>';

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&apos;' };

/** "Heard, and nothing to say." */
export const EMPTY_TWIML = `${DECLARATION}<Response/>`;

/** A reply of one message; of none when the text is empty. What XML cannot hold is left out, so that a reply is always one. */
export function toTwiml(text: string): string {
  const plain = toPlainText(text);
  if (plain === '') return EMPTY_TWIML;
  const escaped = plain.replace(/[&<>"']/g, (character) => ENTITIES[character] ?? '');
  return `${DECLARATION}<Response><Message>${escaped}</Message></Response>`;
}
