// The rows of the table of wording: a message, and what each chosen language says. In the order of the base language; what only
// another language has stands last. Pure. Next: choice.ts, what is chosen; table.tsx, how it looks.

import type { Choice } from './choice.ts';
import { isWarned, type Meter, meterOf } from './meter.ts';
import type { WordedLanguage, Wording, Written } from './read-wording.ts';

export interface Cell {
  readonly language: WordedLanguage;
  /** Null: the language does not say it yet. */
  readonly written: Written | null;
  /** What is in force, where the draft says something else; null: it is not drafted. */
  readonly inForce: { readonly words: string | null } | null;
  /** Null where nothing is said. */
  readonly meter: Meter | null;
}

export interface Row {
  readonly key: string;
  readonly cells: readonly Cell[];
}

/** So few that a form with sixteen languages stays below the thousand fields that a server reads. */
export const rowsPerPage = 30;

export interface Rows {
  readonly rows: readonly Row[];
  /** Of all pages. */
  readonly count: number;
  readonly pages: number;
  readonly page: number;
}

export function areasOf({ languages: [base] }: Wording): string[] {
  return [...new Set([...(base?.messages.values() ?? [])].map(({ file }) => areaOf(file)))];
}

function areaOf(file: string): string {
  return file.replace(/^.*\//, '').replace(/\.ya?ml$/, '');
}

/** Takes  inForce: the wording that phones hear. */
export function rowsOf(drafted: Wording, inForce: Wording, choice: Choice): Rows {
  const before = new Map(inForce.languages.map((language) => [language.tag, language]));
  const keys = new Set(drafted.languages.flatMap(({ messages }) => [...messages.keys()]));
  const all: { readonly key: string; readonly cells: readonly Cell[] }[] = [];
  for (const key of keys) {
    const cells = choice.languages.map((language) => cellOf(key, language, before.get(language.tag)));
    if (isChosen(key, cells, drafted, choice)) all.push({ key, cells });
  }
  const pages = Math.max(1, Math.ceil(all.length / rowsPerPage));
  const page = Math.min(choice.page, pages);
  return { rows: all.slice((page - 1) * rowsPerPage, page * rowsPerPage), count: all.length, pages, page };
}

function cellOf(key: string, language: WordedLanguage, before: WordedLanguage | undefined): Cell {
  const written = language.messages.get(key) ?? null;
  const was = before?.messages.get(key)?.words ?? null;
  return {
    language,
    written,
    inForce: was === (written?.words ?? null) ? null : { words: was },
    meter: written === null ? null : meterOf(key, written.words, language.alphabet, written.values),
  };
}

function isChosen(key: string, cells: readonly Cell[], { languages }: Wording, { area, search, only }: Choice): boolean {
  const written = languages.flatMap(({ messages }) => messages.get(key) ?? []);
  if (area !== '' && !(written[0] !== undefined && areaOf(written[0].file) === area)) return false;
  const sought = search.toLocaleLowerCase();
  const isFound = [key, ...cells.map((cell) => cell.written?.words ?? '')].some((text) => text.toLocaleLowerCase().includes(sought));
  if (!isFound) return false;
  switch (only) {
    case 'missing':
      return cells.some((cell) => cell.written === null);
    case 'drafted':
      return cells.some((cell) => cell.inForce !== null);
    case 'over':
      return cells.some(({ meter }) => meter !== null && isWarned(meter));
    case 'all':
      return true;
  }
}
