// Text to bytes and back. The package's own tables, which share nothing with ours, read what we write.

import fc from 'fast-check';
import type { Pdu } from 'smpp';
import { expect, test } from 'vitest';
import { smpp } from '../../../src/channels/smpp/protocol.ts';
import { decodeText, encodeText } from '../../../src/channels/smpp/text-coding.ts';
import { basicCharacters, extensionCharacters } from '../../../src/messages/gsm7-alphabet.ts';

function readByPackage(text: string): string {
  const { coding, bytes } = encodeText(text);
  const written = new smpp.PDU('submit_sm', { data_coding: coding, short_message: bytes }).toBuffer();
  const read = new (smpp.PDU as unknown as new (buffer: Buffer) => Pdu)(written);
  return (read.short_message as { message: string }).message;
}

// A carriage return and a form feed are no plain text, and never go out.
const sent = [...basicCharacters, ...extensionCharacters].filter((character) => character !== '\r' && character !== '\f');

test.each(sent)('%j goes out in GSM 7-bit and is read back, by the package too', (character) => {
  expect(encodeText(character).coding).toBe(0);
  expect(decodeText(encodeText(character))).toBe(character);
  expect(readByPackage(character)).toBe(character);
});

test('all else goes out in UCS-2', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom('न', 'म', '👶', 'a', '€', 'ç'), { minLength: 1, maxLength: 60 }), (characters) => {
      const text = ['न', ...characters].join('').normalize('NFC');
      expect(encodeText(text).coding).toBe(8);
      expect(decodeText(encodeText(text))).toBe(text);
      expect(readByPackage(text)).toBe(text);
    }),
  );
});

test.each([
  ['flash, GSM 7-bit', 0xf0, '@1', Buffer.from([0, 0x31])],
  ['cell broadcast, GSM 7-bit', 0x0f, '1', Buffer.from('1')],
  ['cell broadcast, UCS-2', 0x48, 'न', Buffer.from([0x09, 0x28])],
  ['Latin-1', 3, 'é', Buffer.from([0xe9])],
  ['ASCII', 1, 'BABY', Buffer.from('BABY')],
  ['an escape that nothing follows', 0, '1', Buffer.from([0x31, 0x1b])],
  ['a code beyond seven bits', 0, '1 ', Buffer.from([0x31, 0xff])],
  ['half a character of UCS-2', 8, undefined, Buffer.from([0x09])],
  ['data', 4, undefined, Buffer.from('x')],
  ['Japanese', 5, undefined, Buffer.from('x')],
])('%s (%i) is read as %j', (_name, coding, text, bytes) => {
  expect(decodeText({ coding, bytes })).toBe(text);
});
