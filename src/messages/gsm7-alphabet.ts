// The GSM 7-bit default alphabet and its extension table, as they stand in 3GPP TS 23.038 sections 6.2.1 and 6.2.1.1.
// A technical constant, not a setting: only data lives here. National language tables are out of scope, because carriers
// decide whether they are used. Checked character by character in tests/messages/gsm7.test.ts. Next: gsm7.ts.

/** The basic table in the order of its codes, sixteen to a line. Code 0x1B is the escape to the extension table. */
const basicTable = [
  '@£$¥èéùìòÇ\nØø\rÅå',
  'Δ_ΦΓΛΩΠΨΣΘΞ\u001bÆæßÉ',
  ' !"#¤%&\'()*+,-./',
  '0123456789:;<=>?',
  '¡ABCDEFGHIJKLMNO',
  'PQRSTUVWXYZÄÖÑÜ§',
  '¿abcdefghijklmno',
  'pqrstuvwxyzäöñüà',
].join('');

const escapeCode = '\u001b';

/** Characters that take one septet. */
export const basicCharacters: readonly string[] = [...basicTable].filter((character) => character !== escapeCode);

/** Characters that take two: the escape and a code of the extension table. */
export const extensionCharacters: readonly string[] = ['\f', '^', '{', '}', '\\', '[', '~', ']', '|', '€'];
