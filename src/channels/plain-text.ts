// Text as it may enter or leave: nothing a database, an XML reader or a terminal would choke on. Meaning is not touched:
// emoji, joiners and the marks of right-to-left scripts stay. Next: sms/twiml.ts and ussd/reply.ts.

const LINE_BREAK = /\r\n?/g;
/** Control characters other than tab and newline, unpaired surrogates, and the two code points XML 1.0 forbids. */
const UNPRINTABLE = /[^\P{Cc}\t\n]|[\p{Cs}\uFFFE\uFFFF]/gu;

/**
 * The same words in NFC, without NUL and other control characters; every kind of line break becomes a newline.
 * Spaces at either end stay.
 */
export function toPlainText(raw: string): string {
  return raw.replace(LINE_BREAK, '\n').replace(UNPRINTABLE, '').normalize('NFC');
}
