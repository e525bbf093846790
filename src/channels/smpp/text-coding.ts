// Text as bytes and back. GSM 7-bit goes unpacked, one character a byte, as centres expect it under data_coding 0; all else is UCS-2.
// The alphabet itself is src/messages/gsm7-alphabet.ts.
//
// Source   3GPP TS 23.038 6.2.1 and 6.2.1.1 (codes of the extension table), 5 (cell broadcast scheme, which USSD uses);
//          SMPP 3.4, 5.2.19 data_coding.

import { alphabetOf } from '../../messages/gsm7.ts';
import { basicCharacters } from '../../messages/gsm7-alphabet.ts';
import { toPlainText } from '../plain-text.ts';

export const DATA_CODING = { gsm7: 0, ucs2: 8 } as const;

const ESCAPE = 0x1b;
/** The basic table has the escape among its codes, and the list of its characters has not. */
const codes = new Map(basicCharacters.map((character, at) => [character, at < ESCAPE ? at : at + 1]));
const characters = new Map([...codes].map(([character, code]) => [code, character]));
const extensions = new Map([
  ['\f', 0x0a],
  ['^', 0x14],
  ['{', 0x28],
  ['}', 0x29],
  ['\\', 0x2f],
  ['[', 0x3c],
  ['~', 0x3d],
  [']', 0x3e],
  ['|', 0x40],
  ['€', 0x65],
]);
const extended = new Map([...extensions].map(([character, code]) => [code, character]));

export interface Coded {
  readonly coding: number;
  readonly bytes: Buffer;
}

export function encodeText(text: string): { readonly coding: 0 | 8; readonly bytes: Buffer } {
  const plain = toPlainText(text);
  if (alphabetOf(plain) === 'ucs-2') return { coding: DATA_CODING.ucs2, bytes: Buffer.from(plain, 'utf16le').swap16() };
  const bytes = [...plain].flatMap((character) => {
    const code = codes.get(character);
    return code === undefined ? [ESCAPE, extensions.get(character) ?? 0] : [code];
  });
  return { coding: DATA_CODING.gsm7, bytes: Buffer.from(bytes) };
}

/** The text; undefined when the bytes are data, or in an alphabet that is not read here. */
export function decodeText({ coding, bytes }: Coded): string | undefined {
  switch (coding) {
    case 0x00:
    case 0x0f:
    case 0xf0:
    case 0xf1:
    case 0xf2:
    case 0xf3:
      return decodeGsm7(bytes);
    case 0x01:
    case 0x03:
      return bytes.toString('latin1');
    case 0x08:
    case 0x18:
    case 0x48:
      return bytes.length % 2 === 0 ? Buffer.from(bytes).swap16().toString('utf16le') : undefined;
    default:
      return undefined;
  }
}

/** A code that is not in a table is a space, as 23.038 has it. */
function decodeGsm7(bytes: Buffer): string {
  let text = '';
  let isEscaped = false;
  for (const code of bytes) {
    if (code === ESCAPE && !isEscaped) isEscaped = true;
    else {
      text += (isEscaped ? (extended.get(code) ?? characters.get(code)) : characters.get(code)) ?? ' ';
      isEscaped = false;
    }
  }
  return text;
}
