// What may be written in a file, for the completion of the editor: its schema, and the names that the draft gives to things, found
// where each kind of file writes them. Only a help to whoever types; which names count is read by src/authoring.

import { schemaFor } from '../../authoring/schemas/schema-for.ts';
import type { PublishedFile } from '../../conversation/publications.ts';
import { draftedFiles } from '../drafts/drafted.ts';
import type { Answer, Visit } from '../route.ts';
import type { FileSchema } from './answers.ts';

/** By the kinds of completions.ts: in which files such a name is given, and how. */
const given: Readonly<Record<string, { readonly files: RegExp; readonly name: RegExp }>> = {
  finding: { files: /^flows\/protocol\/(findings|fields)\.yaml$/, name: /^ *- (?:finding|field): ([\w-]+)/gm },
  switch: { files: /^flows\/protocol\/switches\.yaml$/, name: /^ *- switch: ([\w-]+)/gm },
  classification: { files: /^flows\/protocol\/classifications\//, name: /^ *- classification: ([\w-]+)/gm },
  advice: { files: /^flows\/protocol\/advice\.yaml$/, name: /\badvice: (advice\.[\w-]+)/g },
  limit: { files: /^flows\/protocol\/limits\.yaml$/, name: /^ {2}([\w-]+):/gm },
  row: { files: /^flows\/protocol\/rows\.yaml$/, name: /^ {2}([\w-]+):/gm },
  flow: { files: /^flows\/[^/]+\.yaml$/, name: /^flow: ([\w-]+)/gm },
};

export async function schemaOf({ parts, query }: Visit): Promise<Answer> {
  const value: FileSchema = { schema: schemaFor(query.file ?? ''), names: namesIn(await draftedFiles(parts), query.file ?? '') };
  return { kind: 'json', value };
}

export function namesIn(files: readonly PublishedFile[], file: string): Record<string, string[]> {
  const own = files.filter(({ name }) => name === file);
  const found = (among: readonly PublishedFile[], name: RegExp): string[] => [
    ...new Set(among.flatMap(({ text }) => [...text.matchAll(name)].map(([, one]) => one ?? ''))),
  ];
  const all = Object.entries(given).map(([kind, { files: which, name }]) => [
    kind,
    found(
      files.filter((one) => which.test(one.name)),
      name,
    ),
  ]);
  return { ...Object.fromEntries(all), step: found(own, /^ *- step: ([\w-]+)/gm) };
}
