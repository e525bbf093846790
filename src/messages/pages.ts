// Deals pieces of text out to pages that each fit: whole pieces while they fit, a piece that is too long alone is broken
// at a word, and a word at a character as a reader sees it (a grapheme). Knows neither SMS nor USSD: what fits, and what
// is written around a page, come from the caller. Next: screens.ts.

export interface Page {
  /** Between two pieces on one page. */
  readonly joiner: string;
  /** What is added to a page's body, such as how to turn the page. */
  readonly frame: (body: string, first: boolean, last: boolean) => string;
  readonly fits: (page: string) => boolean;
}

export interface Dealt {
  readonly text: string;
  /** How many pieces have begun by the end of this page. */
  readonly begun: number;
}

/**
 * Pages in order; every one fits as framed, and only space at a break or around a piece is left out. A frame that leaves no
 * room for a single character is dropped from that page: the words come first.
 */
export function deal(pieces: readonly string[], page: Page): Dealt[] {
  const all = pieces.map((piece) => piece.trim()).filter((piece) => piece !== '');
  const rest = [...all];
  const pages: Dealt[] = [];
  while (rest.length > 0) {
    const first = pages.length === 0;
    const whole = page.frame(rest.join(page.joiner), first, true);
    if (page.fits(whole)) return [...pages, { text: whole, begun: all.length }];
    const text = takePage(rest, page, first);
    const ended = all.length - rest.length;
    const isBroken = rest.length > 0 && rest[0] !== all[ended];
    pages.push({ text, begun: isBroken ? ended + 1 : ended });
  }
  return pages;
}

/** Takes one page's worth of pieces off the front of `rest`, at least one character of them. */
function takePage(rest: string[], page: Page, first: boolean): string {
  let body = rest[0] ?? '';
  const framed = (text: string): string => page.frame(text, first, false);
  if (!page.fits(framed(body))) return takeBroken(rest, body, page, framed);
  rest.shift();
  while (rest[0] !== undefined && page.fits(framed(`${body}${page.joiner}${rest[0]}`))) {
    body += page.joiner + rest.shift();
  }
  return framed(body);
}

function takeBroken(rest: string[], piece: string, page: Page, framed: (text: string) => string): string {
  const cut = cutToFit(piece, (head) => page.fits(framed(head)));
  const bare = cut === 0;
  const at = bare ? Math.max(cutToFit(piece, page.fits), firstCharacter(piece).length) : cut;
  const head = piece.slice(0, at).trimEnd();
  const tail = piece.slice(at).trimStart();
  if (tail === '') rest.shift();
  else rest[0] = tail;
  return bare ? head : framed(head);
}

/** The length of the longest beginning of `piece` that fits and ends well; 0 when not one character fits. */
function cutToFit(piece: string, fits: (head: string) => boolean): number {
  let cut = 0;
  let word = 0;
  for (const { segment, index } of graphemes.segment(piece)) {
    const end = index + segment.length;
    if (!fits(piece.slice(0, end).trimEnd())) break;
    cut = end;
    if (/\s$/u.test(segment) || /^\s/u.test(piece.slice(end, end + 1))) word = end;
  }
  if (cut === piece.length) return cut;
  if (word > 0) return word;
  // One grapheme alone (a letter under a pile of marks) may be longer than a page: then it is cut between code points.
  return cut > 0 ? cut : cutAtCodePoint(piece, fits);
}

function cutAtCodePoint(piece: string, fits: (head: string) => boolean): number {
  let cut = 0;
  for (const character of piece) {
    if (!fits(piece.slice(0, cut + character.length))) break;
    cut += character.length;
  }
  return cut;
}

function firstCharacter(text: string): string {
  return String.fromCodePoint(text.codePointAt(0) ?? 0);
}

const graphemes = new Intl.Segmenter('und', { granularity: 'grapheme' });
