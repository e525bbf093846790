// The words of a key in a language, as they may stand in a text: in letters that the cheap alphabet holds where it can.
// Replies are put together by compose.ts; this is for single sentences and for texts out.

import { type Catalogues, type SayableValue, say } from '../messages/catalogue.ts';
import { toPlain } from '../messages/gsm7.ts';

export type Speak = (language: string, key: string, values: Readonly<Record<string, SayableValue>>) => string;

export function speaker(catalogues: Catalogues): Speak {
  return (language, key, values) => toPlain(say(catalogues, language, key, values));
}
