// What was typed into the table goes into the draft, cell by cell: what others wrote meanwhile in other cells of a file stays, and of
// two who wrote the same cell the second is told and keeps her words on the page. Next: write-message.ts.

import type { SourceFile } from '../../authoring/yaml-source.ts';
import { overlay } from '../drafts/drafted.ts';
import type { ConsoleParts } from '../ports.ts';
import { readWording, type WordedLanguage, type Wording } from './read-wording.ts';
import { writeMessage } from './write-message.ts';

/** One cell that was changed on the page. */
export interface Edit {
  readonly tag: string;
  readonly key: string;
  /** What stood there when the page was made; empty: nothing. */
  readonly was: string;
  readonly now: string;
}

export type Unsaved =
  /** Somebody wrote something else there since. */
  | { readonly kind: 'overtaken'; readonly edit: Edit; readonly words: string }
  /** The file has no place for it. */
  | { readonly kind: 'no-place'; readonly edit: Edit };

export interface SavedWords {
  readonly saved: number;
  readonly unsaved: readonly Unsaved[];
}

/** Others may save a file between our look and our save; nobody does it so often. */
const mostTries = 5;

export async function saveWords(
  edits: readonly Edit[],
  by: string,
  parts: Pick<ConsoleParts, 'inUse' | 'drafts' | 'now'>,
): Promise<SavedWords> {
  let waiting = edits;
  let saved = 0;
  const unsaved: Unsaved[] = [];
  for (let tries = 0; tries < mostTries && waiting.length > 0; tries += 1) {
    const drafts = await parts.drafts.read();
    const inUse = parts.inUse();
    const wording = readWording(overlay(inUse.files, drafts), inUse.catalogues.base);
    const { written, refused } = writeAll(waiting, wording);
    unsaved.push(...refused);
    waiting = [];
    for (const [name, { text, edits: own }] of written) {
      const outcome = await parts.drafts.save({ name, text, by, at: parts.now() }, drafts.find((one) => one.name === name)?.save ?? 0);
      if (outcome.kind === 'saved') saved += own.length;
      else waiting = [...waiting, ...own];
    }
  }
  return { saved, unsaved: [...unsaved, ...waiting.map((edit): Unsaved => ({ kind: 'overtaken', edit, words: edit.was }))] };
}

interface WrittenFile {
  readonly text: string;
  readonly edits: readonly Edit[];
}

function writeAll(edits: readonly Edit[], { languages }: Wording): { written: Map<string, WrittenFile>; refused: Unsaved[] } {
  const written = new Map<string, WrittenFile>();
  const refused: Unsaved[] = [];
  const order = [...(languages[0]?.messages.keys() ?? [])];
  for (const edit of edits) {
    const language = languages.find(({ tag }) => tag === edit.tag);
    const there = language?.messages.get(edit.key)?.words ?? '';
    if (language !== undefined && there === edit.now) continue;
    if (language !== undefined && there !== edit.was) {
      refused.push({ kind: 'overtaken', edit, words: there });
      continue;
    }
    const file = language === undefined ? null : fileFor(edit.key, language, languages[0]);
    const text = file === null ? null : writeMessage(written.get(file.name)?.text ?? file.text, edit.key, edit.now, order);
    if (file === null || text === null) refused.push({ kind: 'no-place', edit });
    else written.set(file.name, { text, edits: [...(written.get(file.name)?.edits ?? []), edit] });
  }
  return { written, refused };
}

/** Where it stands; of a message that is new, the file of the same name as in the base language. Null: the base has it not. */
function fileFor(key: string, { tag, files, messages }: WordedLanguage, base: WordedLanguage | undefined): SourceFile | null {
  const own = messages.get(key)?.file;
  const like = base?.messages.get(key)?.file;
  if (own === undefined && like === undefined) return null;
  const name = own ?? `locales/${tag}/${like?.replace(/^.*\//, '')}`;
  const single = files.find((file) => /^locales\/[^/]+$/.test(file.name));
  return files.find((file) => file.name === name) ?? single ?? { name, text: '' };
}
