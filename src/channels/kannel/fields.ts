// What Kannel posts of a text (`post-url` with `send-sender`): the words are the body, the number a header, Kannel's id of the message
// stands in the address (`?id=%I`). A long text arrives joined. Next: webhook.ts.

import { z } from 'zod';

const kannelFields = z.object({
  id: z.string().regex(/^[\x21-\x7e]{1,64}$/),
  from: z.string().min(1).max(64),
  /** Kannel's number for how the text is written; 1 is data and no text. */
  coding: z.enum(['0', '1', '2']).default('0'),
});

export interface KannelPost {
  readonly query: Readonly<Record<string, unknown>>;
  readonly header: (name: string) => string | undefined;
  readonly body: Uint8Array;
}

export type ReadKannel =
  | { readonly kind: 'read'; readonly id: string; readonly from: string; readonly text: string }
  /** Settings or a picture for the phone; nobody typed it. */
  | { readonly kind: 'no-text' }
  /** Names of what is missing, sent twice or malformed; never what was in them. */
  | { readonly kind: 'refused'; readonly fields: readonly string[] };

export function readKannelPost({ query, header, body }: KannelPost): ReadKannel {
  const parsed = kannelFields.safeParse({ id: query.id, from: header('x-kannel-from'), coding: header('x-kannel-coding') });
  if (!parsed.success) return { kind: 'refused', fields: parsed.error.issues.map((issue) => issue.path.join('.')) };
  const { id, from, coding } = parsed.data;
  if (coding === '1') return { kind: 'no-text' };
  const text = decode(body, header('content-type') ?? '');
  return text === undefined ? { kind: 'refused', fields: ['charset'] } : { kind: 'read', id, from, text };
}

function decode(body: Uint8Array, contentType: string): string | undefined {
  const [, charset = 'utf-8'] = /charset\s*=\s*"?([\w.:-]+)/i.exec(contentType) ?? [];
  try {
    return new TextDecoder(charset, { fatal: true }).decode(body);
  } catch {
    return undefined;
  }
}
