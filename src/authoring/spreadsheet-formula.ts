// Text that a spreadsheet would run as a formula is written behind an apostrophe, which makes it text there, and read back
// without. What begins with apostrophes before such a sign gets one more, so that every text comes back as it was.
// Source: OWASP Application Security Verification Standard 5.0, requirement 1.2.10; CWE-1236.

/** Signs that begin a formula, those of double width too. */
const guarded = /^'*[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/u;

export function guardFormula(text: string): string {
  return guarded.test(text) ? `'${text}` : text;
}

export function unguardFormula(written: string): string {
  return written.startsWith("'") && guarded.test(written) ? written.slice(1) : written;
}
