// What the script of the editor gets when it asks. Only types, shared by both sides, so that neither reaches into the other.
// Next: check-text.tsx, play-text.tsx, save-text.tsx, schema-names.ts.

import type { Diagnostic } from '../../authoring/diagnostic.ts';

export interface CheckedText {
  /** Of this file. */
  readonly diagnostics: readonly Diagnostic[];
  /** Of all files, to be put in place. */
  readonly html: string;
}

export type PlayedText =
  | {
      readonly kind: 'played';
      readonly html: string;
      /** Of the first message, in epoch milliseconds; sent along with the next. */
      readonly at: number;
      /** True: the call is over. */
      readonly ended: boolean;
      readonly languages: readonly { readonly tag: string; readonly name: string }[];
    }
  | { readonly kind: 'unsound'; readonly html: string };

/** To whoever asks with `as` set to `json`. */
export type SavedText = { readonly kind: 'saved'; readonly save: number; readonly said: string } | { readonly kind: 'overtaken' };

export interface FileSchema {
  /** Null: files of this kind have none. */
  readonly schema: object | null;
  /** By the kinds of src/authoring/schemas/completions.ts. */
  readonly names: Readonly<Record<string, readonly string[]>>;
}
