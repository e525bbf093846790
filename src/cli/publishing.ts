// Publishing and undoing, for the command and for the console: nothing is published that `check` refuses, and before the first
// publication the files that were in force until then are written down, so that there is something to go back to.
// Next: publish.ts (the command), src/register/publications.ts, live-published.ts.

import type { Diagnostic } from '../authoring/diagnostic.ts';
import type { Publications, PublishedFile, PublishOutcome } from '../conversation/publications.ts';
import { versionOf } from './bind-published.ts';

export interface Author {
  readonly by: string;
  readonly at: number;
  readonly note: string | null;
}

export type Published =
  | PublishOutcome
  | { readonly kind: 'refused'; readonly diagnostics: readonly Diagnostic[] }
  /** These very files are in force. */
  | { readonly kind: 'same'; readonly number: number };

export interface PublishingParts {
  readonly store: Publications;
  /** What is wrong with files: all of `pipit check`. */
  readonly prove: (files: readonly PublishedFile[]) => Promise<readonly Diagnostic[]>;
  /** The files of the folder, in force while nothing is published. */
  readonly folder: () => readonly PublishedFile[];
}

/** Takes  after: the publication that the author has before her; see NewPublication. */
export async function publishFiles(
  files: readonly PublishedFile[],
  after: number,
  author: Author,
  { store, prove, folder }: PublishingParts,
): Promise<Published> {
  const version = versionOf(files);
  if (version === (await versionInForce(store, folder))) return { kind: 'same', number: after };
  const diagnostics = await prove(files);
  if (diagnostics.some(({ severity }) => severity === 'error')) return { kind: 'refused', diagnostics };
  if (after === 0) {
    const first = folder();
    const written = { ...author, by: 'pipit', version: versionOf(first), note: null, restores: null, files: first, after };
    const outcome = await store.publish(written);
    if (outcome.kind === 'overtaken') return outcome;
  }
  return store.publish({ ...author, version, restores: null, files, after: Math.max(after, 1) });
}

export type Undone =
  | Published
  /** There is no such publication. */
  | { readonly kind: 'unknown' };

/**
 * Brings the files of an earlier publication back, as a new one.
 *
 * Takes    to: its number; left out, that before the one in force, or what that one brought back in its place.
 *          seen: what is in force in the author's eyes; left out, whatever is.
 */
export async function undo(author: Author, { store, prove }: PublishingParts, to?: number, seen?: number): Promise<Undone> {
  const after = seen ?? (await store.last());
  const number = to ?? after - 1;
  if (!Number.isInteger(number) || number < 1 || number > after) return { kind: 'unknown' };
  if (number === after) return { kind: 'same', number };
  const files = await store.files(number);
  // The program may have changed since they were published, and what they were proved by with it.
  const diagnostics = await prove(files);
  if (diagnostics.some(({ severity }) => severity === 'error')) return { kind: 'refused', diagnostics };
  return store.publish({ ...author, version: versionOf(files), restores: number, files, after });
}

async function versionInForce(store: Publications, folder: PublishingParts['folder']): Promise<string> {
  const [newest] = await store.list(1);
  return newest?.version ?? versionOf(folder());
}
