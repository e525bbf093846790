// From what a phone sends to the pieces that readers take. Tolerant of keypads: digits of any script, O for 0 and l for 1
// next to digits, odd dashes and spaces. Never guesses at meaning; that is for the readers beside this file.

const decimalDigit = /\p{Nd}/gu;

/** Digits of any script as 0-9: Unicode lays every set of ten out in order, so a digit's value is its distance to its zero. */
function toAsciiDigit(digit: string): string {
  const code = digit.codePointAt(0) ?? 0;
  if (code < 0x80) return digit;
  let value = 0;
  while (value < 9 && /\p{Nd}/u.test(String.fromCodePoint(code - value - 1))) value += 1;
  return String(value);
}

/** Lower case, one kind of space and dash, ASCII digits; control and zero-width characters are gone. */
export function normalise(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu, ' ')
    .replace(decimalDigit, toAsciiDigit)
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\uFF0C\u060C]/g, ',')
    .replace(/\s+/gu, ' ')
    .trim()
    .toLowerCase();
}

/** O and l typed for 0 and 1, where a digit stands beside them; `-` alone, `?` and words stay as they are. */
function mendDigits(token: string): string {
  if (!/\d/.test(token)) return token;
  return token.replace(/(?<=[\d.,*:/])o|o(?=[\d.,*:/])/g, '0').replace(/(?<=[\d.,*:/])l|l(?=[\d.,*:/])/g, '1');
}

/** Pieces between spaces and semicolons. */
export function tokens(text: string): string[] {
  const normal = normalise(text);
  return normal === '' ? [] : normal.split(/[ ;]+/).filter((token) => token !== '').map(mendDigits);
}
