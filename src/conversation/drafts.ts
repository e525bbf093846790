// What coordinators have written and not published yet: one draft for the programme, file by file. Only types. Implemented by
// src/register/drafts.ts.

export interface DraftFile {
  readonly name: string;
  readonly text: string;
  readonly by: string;
  /** Epoch milliseconds. */
  readonly at: number;
  /** Counts its saves, from 1. */
  readonly save: number;
}

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly save: number }
  /** Somebody else saved it since; nothing was written. */
  | { readonly kind: 'overtaken'; readonly by: DraftFile };

export interface Drafts {
  /** Only files that were touched. */
  read(): Promise<DraftFile[]>;
  /** Takes  seen: the save that the author began from; 0: the published text. */
  save(file: Omit<DraftFile, 'save'>, seen: number): Promise<SaveOutcome>;
  /** Takes  name: left out, all. save: only while it is this save; what somebody saved since stays. */
  discard(name?: string, save?: number): Promise<void>;
}
