// The keys with which names and card numbers are sealed, as they are set: `ID:KEY`, several with commas, the first for what is written
// from now on and all of them for what is read. Next: seal.ts, sealed-database.ts.

export interface SealingKey {
  /** Stands before each value that it sealed. */
  readonly id: string;
  /** 32 bytes, for AES-256. */
  readonly key: Buffer;
}

export type SealingKeys = readonly [SealingKey, ...SealingKey[]];

export type KeysRead = { readonly kind: 'keys'; readonly keys: SealingKeys } | { readonly kind: 'refused'; readonly why: string };

const keyBytes = 32;
const remedy = 'Write ID:KEY, such as 2026a:$(openssl rand -base64 32); several with commas, the newest first.';

/** Never repeats a key in what it says of it. */
export function readSealingKeys(text: string): KeysRead {
  const keys: SealingKey[] = [];
  for (const [at, part] of text.split(',').entries()) {
    const [, id = '', written = ''] = /^\s*([a-z0-9]{1,16}):([A-Za-z0-9+/]+={0,2})\s*$/.exec(part) ?? [];
    const key = Buffer.from(written, 'base64');
    if (key.length !== keyBytes)
      return { kind: 'refused', why: `Key ${at + 1} is no ID of letters and digits with ${keyBytes} bytes in base64 behind it. ${remedy}` };
    if (keys.some((one) => one.id === id)) return { kind: 'refused', why: `Two keys are called "${id}". Give each an ID of its own.` };
    keys.push({ id, key });
  }
  const [first, ...others] = keys;
  return first === undefined ? { kind: 'refused', why: remedy } : { kind: 'keys', keys: [first, ...others] };
}
