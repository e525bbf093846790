// What was published when, and by whom: the port over where it is kept. Only types. Implemented by src/register/publications.ts.

export interface PublishedFile {
  /** As in `flows/recheck.yaml`, `locales/en/signs.yaml`. */
  readonly name: string;
  readonly text: string;
}

export interface Publication {
  /** From 1; the highest is in force. */
  readonly number: number;
  /** Hash of its files; stands with each examination. */
  readonly version: string;
  readonly by: string;
  /** Epoch milliseconds. */
  readonly at: number;
  readonly note: string | null;
  /** The publication whose files it brought back; null: they were new. */
  readonly restores: number | null;
}

export interface NewPublication extends Omit<Publication, 'number'> {
  readonly files: readonly PublishedFile[];
  /** What is published in the author's eyes: 0 before anything is. */
  readonly after: number;
}

export type PublishOutcome =
  | { readonly kind: 'published'; readonly number: number }
  /** Somebody published since; nothing was written. */
  | { readonly kind: 'overtaken'; readonly by: Publication };

export interface Publications {
  /** Number of the publication in force; 0 before the first, when files of a folder are. */
  last(): Promise<number>;
  /** Newest first. */
  list(limit: number): Promise<Publication[]>;
  files(number: number): Promise<PublishedFile[]>;
  /** Publishes, whole or not at all, unless something was published after `after`. Of several at once one does. */
  publish(publication: NewPublication): Promise<PublishOutcome>;
}
