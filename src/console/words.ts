// The words of the pages: locales/console/<language>/*.yaml, flat, a key and its ICU message. Never throws for a key that is
// missing, but shows it. The words of phones are elsewhere (src/messages/catalogue.ts).

import { parse } from 'yaml';
import type { SourceFile } from '../authoring/yaml-source.ts';
import { type Message, readMessage } from '../messages/message.ts';
import { render } from '../messages/render.ts';

export type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string;

/**
 * Takes    files: those of one language.
 * Errors   a file that is no map of messages, or a message that cannot be read, named.
 */
export function readWords(files: readonly SourceFile[], tag: string): Say {
  const messages = new Map<string, Message>();
  for (const { name, text } of files) {
    for (const [key, words] of Object.entries(parse(text, { schema: 'failsafe' }) as Record<string, string>)) {
      const { message, faults } = readMessage(words);
      if (message === null || faults.length > 0 || messages.has(key))
        throw new Error(`${name}: "${key}" cannot be read as a message, or stands twice. Mend it.`);
      messages.set(key, message);
    }
  }
  return (key, values) => {
    const message = messages.get(key);
    return message === undefined ? key : render(message, { tag }, (name) => values?.[name]);
  };
}
