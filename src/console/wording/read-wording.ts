// Every message of every language as it is written in the files, for a table: its words as they stand, and the file and line. The
// base language comes first. Languages with a file that cannot be read are named, and hold nothing. Next: rows.ts.

import { isScalar } from 'yaml';
import { longestValues } from '../../authoring/checks/longest-values.ts';
import { type Header, readHeader } from '../../authoring/read-catalogue-header.ts';
import { type PlacedMessage, readMessages } from '../../authoring/read-catalogue-messages.ts';
import { type PlaceLine, readPlaces } from '../../authoring/read-places.ts';
import { fieldsOf, type Place, readYaml, type SourceFile } from '../../authoring/yaml-source.ts';
import type { Bounds } from '../../messages/longest.ts';

export interface Written {
  readonly words: string;
  readonly file: string;
  readonly line: number;
  /** The longest that can stand in its places. */
  readonly values: Bounds;
}

export interface WordedLanguage extends Header {
  readonly files: readonly SourceFile[];
  /** By key, in the order written. */
  readonly messages: ReadonlyMap<string, Written>;
}

export interface Wording {
  readonly languages: readonly WordedLanguage[];
  /** Files that cannot be read; their languages are left out. */
  readonly unreadable: readonly string[];
}

/** Takes  files: all of an edition; those under locales/ are read, and what stands in the places of messages. */
export function readWording(files: readonly SourceFile[], base: string): Wording {
  const byTag = new Map<string, SourceFile[]>();
  for (const file of files) {
    const tag = /^locales\/([^/.]+)(?:\/.*)?\.ya?ml$/.exec(file.name)?.[1];
    if (tag !== undefined) byTag.set(tag, [...(byTag.get(tag) ?? []), file]);
  }
  const listed = files.find(({ name }) => name === 'flows/reference/places.yaml');
  const lines = listed === undefined ? [] : readPlaces(listed, unsaid);
  const languages: WordedLanguage[] = [];
  const unreadable: string[] = [];
  const order = [...byTag.keys()].sort((a, b) => Number(b === base) - Number(a === base) || (a < b ? -1 : 1));
  for (const tag of order) {
    const read = readLanguage(tag, byTag.get(tag) ?? [], lines);
    if ('tag' in read) languages.push(read);
    else unreadable.push(...read.unreadable);
  }
  return { languages, unreadable };
}

/** What is wrong with them is for `check` to say. */
const unsaid = (): void => undefined;

function readLanguage(
  tag: string,
  files: readonly SourceFile[],
  lines: readonly PlaceLine[],
): WordedLanguage | { readonly unreadable: readonly string[] } {
  const read = files.map((file) => ({ file, top: readYaml(file, unsaid) }));
  const broken = read.filter(({ top }) => top === null);
  if (broken.length > 0) return { unreadable: broken.map(({ file }) => file.name) };
  const parts = read.flatMap(({ top }) => (top === null ? [] : fieldsOf(top, ['language', 'keywords', 'readings', 'messages'], unsaid)));
  const partsOf = (section: string): Place[] => parts.flatMap((part) => part.get(section) ?? []);
  const [described] = partsOf('language');
  const header = described === undefined ? null : readHeader(described, tag, unsaid);
  if (header === null) return { unreadable: [described?.file ?? files[0]?.name ?? tag] };
  const placed = new Map<string, PlacedMessage>();
  for (const section of partsOf('messages')) readMessages(section, header.alphabet, placed, unsaid);
  const sayable = new Map([...placed].flatMap(([key, { message }]) => (message === null ? [] : [[key, message] as const])));
  const valuesOf = longestValues(lines, { alphabet: header.alphabet, messages: sayable });
  const messages = new Map<string, Written>();
  for (const [key, { place, message }] of placed) {
    const words = isScalar(place.node) && typeof place.node.value === 'string' ? place.node.value : '';
    messages.set(key, { words, file: place.file, line: place.keyRange.start.line, values: message === null ? {} : valuesOf(key, message) });
  }
  return { ...header, files, messages };
}
