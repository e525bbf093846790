// The draft with the text that is being written laid over it, from a post of the editor. Next: check-text.ts, play-text.ts.

import type { PublishedFile } from '../../conversation/publications.ts';
import { draftedFiles, overlay } from '../drafts/drafted.ts';
import type { Visit } from '../route.ts';
import { isFileName } from './file-groups.ts';

export interface Edited {
  readonly name: string;
  readonly text: string;
  readonly files: readonly PublishedFile[];
}

/** Null: no such file may be written. */
export async function editedText({ parts, form }: Visit): Promise<Edited | null> {
  const { file: name = '', text } = form;
  const drafted = await draftedFiles(parts);
  if (text === undefined || !(isFileName(name) || drafted.some((one) => one.name === name))) return null;
  return { name, text: asLines(text), files: overlay(drafted, [{ name, text: asLines(text) }]) };
}

/** Forms send every line with a carriage return. */
export function asLines(text: string): string {
  return text.replaceAll('\r\n', '\n');
}
