// What is said otherwise: languages, messages, and the words that a worker may send.

import type { Catalogue } from '../../messages/catalogue.ts';
import type { Message } from '../../messages/message.ts';
import { readYaml, type SourceFile } from '../yaml-source.ts';
import { type Change, type ChangeKind, changed, type Edition, removed, type Spot } from './change.ts';
import { fieldsIn, spotOf } from './entry.ts';
import { pairsOf } from './pairs.ts';

export function wordingChanges(before: Edition, after: Edition): Change[] {
  const languages = [...before.catalogues.byTag.keys()];
  const now = [...after.catalogues.byTag.keys()];
  return [
    ...languages
      .filter((tag) => !now.includes(tag))
      .map((language) => removed('language-removed', { language }, spotOfWords(before.sources, language, []))),
    ...[...after.catalogues.byTag].flatMap(([language, catalogue]): Change[] => {
      const was = before.catalogues.byTag.get(language);
      if (was === undefined) return [changed('language-added', { language }, spotOfWords(after.sources, language, []))];
      const at: Places = {
        before: (path) => spotOfWords(before.sources, language, path),
        after: (path) => spotOfWords(after.sources, language, path),
      };
      return [
        ...messageChanges(language, was, catalogue, at),
        ...wordChanges(language, was, catalogue, at),
        ...headChanges(language, was, catalogue, at),
      ];
    }),
  ];
}

interface Places {
  readonly before: (path: readonly string[]) => Spot;
  readonly after: (path: readonly string[]) => Spot;
}

/** One change a language and kind, with the keys: a new edition of a language may touch hundreds. */
function messageChanges(language: string, was: Catalogue, is: Catalogue, at: Places): Change[] {
  const [old, now] = [was.messages, is.messages];
  const gone = [...old.keys()].filter((key) => !now.has(key));
  const fresh = [...now.keys()].filter((key) => !old.has(key));
  const other = [...now].filter(([key, message]) => old.has(key) && written(old.get(key)) !== written(message)).map(([key]) => key);
  const said = (kind: ChangeKind, keys: readonly string[], saying: typeof changed, spot: Places['after']): Change[] => {
    const [first] = keys;
    return first === undefined ? [] : [saying(kind, { language, count: keys.length, keys: keys.join(', ') }, spot(['messages', first]))];
  };
  return [
    ...said('wording-removed', gone, removed, at.before),
    ...said('wording-changed', other, changed, at.after),
    ...said('wording-added', fresh, changed, at.after),
  ];
}

/** The message as text: its forms are a map, which JSON would leave out. */
function written(message: Message | undefined): string {
  return JSON.stringify(message, (_, value: unknown) => (value instanceof Map ? [...value] : value));
}

const lists = ['keywords', 'readings', 'labels', 'regions', 'signs'] as const;

function wordChanges(language: string, was: Catalogue, is: Catalogue, at: Places): Change[] {
  return lists.flatMap((list) => {
    const [old, now] = [was[list], is[list]];
    const isKeyword = list === 'keywords';
    const path = (meaning: string): string[] =>
      isKeyword ? [list, meaning] : ['readings', ...(list === 'readings' ? [] : [list]), meaning];
    return pairsOf(wordsIn(old), wordsIn(now), ({ meaning, word }) => `${meaning} ${word}`).flatMap((pair): Change[] => {
      if (pair.after === undefined) {
        const { meaning, word } = pair.before;
        return [removed(isKeyword ? 'keyword-removed' : 'word-removed', { language, meaning, word }, at.before(path(meaning)))];
      }
      const { meaning, word } = pair.after;
      return pair.before === undefined
        ? [changed(isKeyword ? 'keyword-added' : 'word-added', { language, meaning, word }, at.after(path(meaning)))]
        : [];
    });
  });
}

function wordsIn(words: ReadonlyMap<string, readonly string[]>): { readonly meaning: string; readonly word: string }[] {
  return [...words].flatMap(([meaning, all]) => all.map((word) => ({ meaning, word })));
}

function headChanges(language: string, was: Catalogue, is: Catalogue, at: Places): Change[] {
  return (['name', 'alphabet', 'digits', 'draft'] as const).flatMap((setting) => {
    const [from, to] = [String(was[setting] ?? '-'), String(is[setting] ?? '-')];
    return from === to ? [] : changed('language-setting-changed', { language, setting, from, to }, at.after(['language', setting]));
  });
}

/** Where a key stands in the language's files; the first line of the first file when it cannot be found. */
function spotOfWords(sources: readonly SourceFile[], language: string, path: readonly string[]): Spot {
  const own = sources.filter(({ name }) => name === `locales/${language}.yaml` || name.startsWith(`locales/${language}/`));
  const [section, ...names] = path;
  for (const source of section === undefined ? [] : own) {
    const top = readYaml(source, () => {});
    let place = top === null ? undefined : fieldsIn(top).find(({ key }) => key === section);
    let rest = names.join('.');
    while (place !== undefined && rest !== '') {
      const inside = fieldsIn(place).find(({ key }) => rest === key || rest.startsWith(`${key}.`));
      rest = inside === undefined ? rest : rest.slice(inside.key.length + 1);
      place = inside;
    }
    if (place !== undefined && names.length > 0) return spotOf(place);
  }
  return { file: own[0]?.name ?? `locales/${language}.yaml`, line: 1 };
}
