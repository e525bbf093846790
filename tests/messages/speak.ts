// Catalogues for tests, from plain records of ICU text.
import type { Catalogue, Catalogues } from '../../src/messages/catalogue.ts';
import { type Message, readMessage } from '../../src/messages/message.ts';

export function messageOf(text: string): Message {
  const { message, faults } = readMessage(text);
  if (message === null) throw new Error(`The test's own message cannot be read: ${JSON.stringify(faults)}`);
  return message;
}

export function catalogueOf(tag: string, texts: Record<string, string>, more: Partial<Catalogue> = {}): Catalogue {
  const messages = new Map(Object.entries(texts).map(([key, text]) => [key, messageOf(text)]));
  const noWords = { keywords: new Map(), readings: new Map(), labels: new Map(), regions: new Map(), signs: new Map() };
  return { tag, name: tag, alphabet: 'gsm-7', draft: false, messages, ...noWords, ...more };
}

export function cataloguesOf(base: Catalogue, ...others: Catalogue[]): Catalogues {
  return { base: base.tag, byTag: new Map([base, ...others].map((catalogue) => [catalogue.tag, catalogue])) };
}
