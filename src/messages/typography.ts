// Typographic characters and the plain ones that mean the same, so that one curly quote does not turn a text of 160
// characters into one of 70. Only marks whose meaning survives: no accent, no letter, and no fraction sign ("2½" would
// read "21/2"). Used by toPlain() in gsm7.ts; what stands here is replaced without asking.

const same: readonly (readonly [plain: string, typographic: string])[] = [
  ["'", '\u2018\u2019\u201a\u201b\u2032\u2035\u02b9\u02bb\u02bc\u02bd\u02c8\u00b4`\uff07'],
  ['"', '\u201c\u201d\u201e\u201f\u2033\u2036\u00ab\u00bb\u02ba\uff02'],
  ['<', '\u2039'],
  ['>', '\u203a'],
  ['-', '\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2043\ufe58\ufe63\uff0d'],
  ['-', '\u2022\u2023\u2219\u25aa\u25cf\u25e6\u2027'],
  ['...', '\u2026'],
  [' ', '\t\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000'],
  ['\n', '\r\u000b\f\u0085\u2028\u2029'],
];

/** Typographic character -> what is sent in its place. */
export const typography: ReadonlyMap<string, string> = new Map(
  same.flatMap(([plain, typographic]) => [...typographic].map((character) => [character, plain] as const)),
);
