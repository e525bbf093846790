// Makes text fit for PostgreSQL, which refuses NUL in text and jsonb, and half a surrogate pair in jsonb.
// A phone can send either; neither may cost a baby its alert. Next: the files of the tables.

/** NUL goes; half a surrogate pair becomes U+FFFD, the replacement character. */
export function storableText(text: string): string {
  return text.replaceAll('\0', '').replace(/\p{Surrogate}/gu, '\uFFFD');
}

/** The value as JSON for a jsonb column, its strings and keys treated as by storableText; undefined as null. */
export function storableJson(value: unknown): string {
  // JSON.stringify writes both as escapes. An escaped backslash is matched first, so that `\\u0000` stays what it says.
  return (JSON.stringify(value) ?? 'null').replace(/\\\\|\\u0000|\\ud[89a-f][0-9a-f]{2}/g, (written) => {
    if (written === '\\\\') return written;
    return written === '\\u0000' ? '' : '\uFFFD';
  });
}
