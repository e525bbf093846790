// Any text becomes a reply that an XML reader accepts.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { toPlainText } from '../../../src/channels/plain-text.ts';
import { EMPTY_TWIML, toTwiml } from '../../../src/channels/sms/twiml.ts';
import { EMPTY_REPLY, readTwiml } from '../../support/channel-sms.ts';

test.each([
  ['markup', '</Message><Message>two', '</Message><Message>two'],
  ['an entity', '&lt; &#60;', '&lt; &#60;'],
  ['the end of a CDATA section', ']]>', ']]>'],
  ['quotes', `"'`, `"'`],
  ['NUL and escape', 'a\u0000\u001bb', 'ab'],
  ['half an emoji', 'a\ud83db\udc76', 'ab'],
  ['code points that XML forbids', 'a\ufffe\uffffb', 'ab'],
  ['two lines', '1 Yes\n2 No', '1 Yes\n2 No'],
])('%s is read back as it was meant', (_name, text, read) => {
  expect(readTwiml(toTwiml(text))).toBe(read);
});

test.each(['', '\u0000', '\ud800'])('%j leaves nothing to say', (text) => {
  expect(toTwiml(text)).toBe(EMPTY_REPLY);
  expect(EMPTY_TWIML).toBe(EMPTY_REPLY);
});

test('every string of 16-bit units is read back as plain text', () => {
  const units = fc.array(fc.integer({ min: 0, max: 0xffff })).map((codes) => String.fromCharCode(...codes));
  fc.assert(
    fc.property(units, (text) => {
      expect(readTwiml(toTwiml(text)) ?? '').toBe(toPlainText(text));
    }),
  );
});

test('plain text is made once: doing it again changes nothing, and nothing forbidden is left', () => {
  const units = fc.array(fc.integer({ min: 0, max: 0xffff })).map((codes) => String.fromCharCode(...codes));
  fc.assert(
    fc.property(units, (text) => {
      const plain = toPlainText(text);
      expect(toPlainText(plain)).toBe(plain);
      expect(plain).not.toMatch(/\p{Surrogate}/u);
      expect([...plain].every((character) => character >= ' ' || character === '\t' || character === '\n')).toBe(true);
    }),
  );
});
