// The files of locales/ become the catalogue of every language: <tag>.yaml, or a folder <tag> of files that are merged.
// Reports all it finds and keeps what can be used; whether to go on is for the caller. Next: read-catalogue-header.ts,
// -messages.ts, -words.ts (one section each), -parity.ts (languages against the base).

import type { Catalogue, Catalogues } from '../messages/catalogue.ts';
import { readHeader } from './read-catalogue-header.ts';
import type { ReadLocale } from './read-catalogue-locale.ts';
import { type PlacedMessage, readMessages } from './read-catalogue-messages.ts';
import { checkParity, checkPlurals } from './read-catalogue-parity.ts';
import {
  checkAnswers,
  checkKeywords,
  checkLabels,
  type InnerLists,
  readReadings,
  readWordLists,
  type WordLists,
} from './read-catalogue-words.ts';
import { complain, fieldsOf, type Place, type Report, readYaml, type SourceFile } from './yaml-source.ts';

const sections = ['language', 'keywords', 'readings', 'messages'] as const;

/**
 * The catalogues of all languages. Those that cannot be used are left out, and reported.
 *
 * Takes    files: everything under locales/, in any order. baseTag: the language all others are held against.
 */
export function readCatalogues(files: readonly SourceFile[], report: Report, baseTag = 'en'): Catalogues {
  const locales = new Map<string, ReadLocale>();
  for (const [tag, own] of filesByTag(files)) {
    const locale = readLocale(tag, own, report);
    if (locale !== null) locales.set(tag, locale);
  }
  const base = locales.get(baseTag);
  for (const [tag, locale] of locales) {
    for (const [key, message] of locale.messages) checkPlurals(tag, key, message, report);
    if (base !== undefined && locale !== base) checkParity(locale, base, report);
  }
  return { base: baseTag, byTag: new Map([...locales].map(([tag, locale]) => [tag, catalogueOf(locale)])) };
}

/** locales/sw.yaml and locales/sw/ask.yaml both belong to `sw`. */
function filesByTag(files: readonly SourceFile[]): Map<string, SourceFile[]> {
  const byTag = new Map<string, SourceFile[]>();
  for (const file of [...files].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const tag = tagOfFile(file.name);
    byTag.set(tag, [...(byTag.get(tag) ?? []), file]);
  }
  return byTag;
}

function tagOfFile(name: string): string {
  const within = name.replaceAll('\\', '/').replace(/^.*\blocales\//, '');
  return within.split('/')[0]?.replace(/\.ya?ml$/, '') ?? within;
}

function readLocale(tag: string, files: readonly SourceFile[], report: Report): ReadLocale | null {
  const tops = files.flatMap((file) => readYaml(file, report) ?? []);
  const top = tops[0];
  // With one file unreadable, all its messages would be called missing.
  if (top === undefined || tops.length < files.length) return null;
  const parts = tops.map((place) => fieldsOf(place, sections, report));
  const partsOf = (section: string): Place[] => parts.flatMap((part) => part.get(section) ?? []);

  const [language, second] = partsOf('language');
  if (second !== undefined) {
    report(
      complain(
        second,
        second.keyRange,
        'language/twice',
        `"${tag}" is described in two files.`,
        'It is not clear which of them holds.',
        'Keep one "language:" part.',
      ),
    );
  }
  if (language === undefined) {
    report(
      complain(
        top,
        top.range,
        'language/missing',
        `"${tag}" has no "language:" part.`,
        'Without its alphabet nobody can tell what its texts cost, and it is not served.',
        `Add "language:" with tag: ${tag}, name, alphabet and draft.`,
      ),
    );
    return null;
  }
  const header = readHeader(language, tag, report);
  if (header === null) return null;

  const messages = new Map<string, PlacedMessage>();
  const keywords: WordLists = new Map();
  const readings: WordLists = new Map();
  const inner: InnerLists = { labels: new Map(), regions: new Map(), signs: new Map() };
  for (const section of partsOf('messages')) readMessages(section, header.alphabet, messages, report);
  for (const section of partsOf('keywords')) readWordLists(section, keywords, report);
  for (const section of partsOf('readings')) readReadings(section, readings, inner, report);
  checkKeywords(keywords, report);
  checkLabels(inner, report);
  checkAnswers(keywords, [readings, inner.signs, inner.regions], report);
  return { header, messages, keywords, readings, ...inner, top };
}

function catalogueOf({ header, messages, keywords, readings, labels, regions, signs }: ReadLocale): Catalogue {
  const words = (lists: WordLists): Catalogue['readings'] =>
    new Map([...lists].map(([key, list]) => [key, list.words.map(({ word }) => word)]));
  return {
    ...header,
    messages: new Map([...messages].flatMap(([key, { message }]) => (message === null ? [] : [[key, message] as const]))),
    keywords: words(keywords),
    readings: words(readings),
    labels: words(labels),
    regions: words(regions),
    signs: words(signs),
  };
}
