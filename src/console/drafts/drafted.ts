// The draft as a whole: what is in force with what coordinators have written over it. Who wrote what is in DraftFile.
// Next: src/conversation/drafts.ts, the port.

import type { DraftFile } from '../../conversation/drafts.ts';
import type { PublishedFile } from '../../conversation/publications.ts';
import type { ConsoleParts } from '../ports.ts';

/** All files, in the order in which they are in force; new ones behind them. */
export async function draftedFiles({ inUse, drafts }: Pick<ConsoleParts, 'inUse' | 'drafts'>): Promise<PublishedFile[]> {
  return overlay(inUse().files, await drafts.read());
}

/** Texts laid over files of the same name. */
export function overlay(files: readonly PublishedFile[], over: readonly Pick<DraftFile, 'name' | 'text'>[]): PublishedFile[] {
  const texts = new Map([...files, ...over].map(({ name, text }) => [name, text]));
  return [...texts].map(([name, text]) => ({ name, text }));
}
