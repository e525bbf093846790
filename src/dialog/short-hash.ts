// A short name for a text, to tell whether it is still the same. No secret.

/** FNV-1a, 32 bits, in base 36. */
export function shortHash(text: string): string {
  let value = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) value = Math.imul(value ^ text.charCodeAt(at), 0x01000193) >>> 0;
  return value.toString(36);
}
