// The files as they would be published: those in force, and in place of each that was drafted, the draft. Next:
// src/conversation/drafts.ts, what a draft is.

import type { DraftFile } from '../../conversation/drafts.ts';
import type { PublishedFile } from '../../conversation/publications.ts';
import type { ConsoleParts } from '../ports.ts';

export interface Drafted {
  readonly files: readonly PublishedFile[];
  /** Only what was touched, by name. */
  readonly drafts: ReadonlyMap<string, DraftFile>;
}

export async function draftedFiles(parts: Pick<ConsoleParts, 'inUse' | 'drafts'>): Promise<Drafted> {
  const drafts = new Map((await parts.drafts.read()).map((draft) => [draft.name, draft]));
  const inUse = parts.inUse().files;
  const known = new Set(inUse.map(({ name }) => name));
  const added = [...drafts.values()].filter(({ name }) => !known.has(name));
  const files = [...inUse, ...added].map(({ name, text }) => ({ name, text: drafts.get(name)?.text ?? text }));
  return { files: files.sort((a, b) => (a.name < b.name ? -1 : 1)), drafts };
}
