// What kinds of files a coordinator edits, in the order in which the outline lists them, and which file may be begun anew.
// Next: outline.tsx, which shows them.

import { schemaFor } from '../../authoring/schemas/schema-for.ts';
import type { PublishedFile } from '../../conversation/publications.ts';

export interface FileGroup {
  readonly kind: 'flows' | 'protocol' | 'reference' | 'cases' | 'wording';
  /** Of wording. */
  readonly language?: string;
  readonly files: readonly PublishedFile[];
}

export function groupsOf(files: readonly PublishedFile[]): FileGroup[] {
  const under = (pattern: RegExp): PublishedFile[] => files.filter(({ name }) => pattern.test(name));
  const languages = [...new Set(under(/^locales\/[^/]+\//).map(({ name }) => name.split('/')[1] ?? ''))];
  return [
    { kind: 'flows', files: under(/^flows\/[^/]+$/) },
    { kind: 'protocol', files: under(/^flows\/protocol\//) },
    { kind: 'cases', files: under(/^flows\/reference-cases\//) },
    { kind: 'reference', files: under(/^flows\/reference\//) },
    ...languages.map(
      (language): FileGroup => ({ kind: 'wording', language, files: files.filter(({ name }) => name.startsWith(`locales/${language}/`)) }),
    ),
  ];
}

/** What the file says of itself: the first sentence of the comment that it opens with; empty where it opens with none. */
export function openingOf({ text }: PublishedFile): string {
  const comment: string[] = [];
  for (const line of text.split(/\r?\n/)) {
    const words = /^#\s?(.*)$/.exec(line)?.[1]?.trim();
    if (words === undefined || words === '') break;
    comment.push(words);
  }
  return /^.*?\.(?=\s|$)/.exec(comment.join(' '))?.[0] ?? comment.join(' ');
}

/** A name under which a new file would be read. */
export function isFileName(name: string): boolean {
  return /^(flows|locales)(\/[A-Za-z0-9-]+)+\.yaml$/.test(name) && !name.startsWith('locales/console/') && schemaFor(name) !== null;
}
