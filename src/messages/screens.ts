// Fits words to what a phone shows at once: a USSD screen, or an SMS of a few segments. Texts come in ready and plain;
// how they are dealt out is pages.ts, how they are measured segments.ts.

import { type Dealt, deal } from './pages.ts';
import { measure } from './segments.ts';

/** Most units of one USSD screen. A programme whose gateway cuts earlier sets less. */
export interface ScreenLimit {
  readonly gsm7: number;
  readonly ucs2: number;
}

/**
 * 160 octets hold 182 septets (3GPP TS 23.038 6.1.2.3) or 80 units of UCS-2; 70 is the default because several gateways
 * cut there.
 */
export const screenLimit: ScreenLimit = { gsm7: 182, ucs2: 70 };

export function fitsScreen(text: string, limit: ScreenLimit = screenLimit): boolean {
  const { alphabet, units } = measure(text);
  return units <= (alphabet === 'gsm-7' ? limit.gsm7 : limit.ucs2);
}

/** What a worker keys to turn the page, as it is shown: `98 more`, `00 back`. */
export interface Pager {
  readonly more: string;
  readonly back?: string;
}

/**
 * Screens that each fit, the line that turns the page included. A line is split only when it is too long for a screen
 * of its own: at a word, else between two graphemes.
 */
export function paginate(lines: readonly string[], limit: ScreenLimit, pager: Pager): Dealt[] {
  return deal(lines, {
    joiner: '\n',
    fits: (page) => fitsScreen(page, limit),
    frame: (body, first, last) => {
      const keys = [last ? '' : pager.more, first ? '' : (pager.back ?? '')].filter((key) => key !== '').join(' ');
      return keys === '' ? body : `${body}\n${keys}`;
    },
  });
}

/**
 * Texts of at most `maxSegments` segments each, of whole sentences in their order. `note`, such as "More: 1", stands at
 * the end of all but the last and is counted in. A sentence too long for a text of its own is split as a line is.
 */
export function packSegments(sentences: readonly string[], maxSegments: number, joiner: string, note = ''): Dealt[] {
  return deal(sentences, {
    joiner,
    fits: (page) => measure(page).segments <= maxSegments,
    frame: (body, _first, last) => (last || note === '' ? body : body + joiner + note),
  });
}
