// What a coordinator chose to see of the wording: languages, part, search, and which rows. Read from the address and written back
// into it, so that a choice can be kept and sent. Next: rows.ts.

import type { WordedLanguage } from './read-wording.ts';

export const shows = ['all', 'missing', 'drafted', 'over'] as const;
export type Shows = (typeof shows)[number];

export interface Choice {
  readonly languages: readonly WordedLanguage[];
  /** Part of the base language's files, such as `signs`; empty: all. */
  readonly area: string;
  readonly search: string;
  readonly only: Shows;
  /** From 1. */
  readonly page: number;
}

/** The base language and what is chosen beside it; nothing chosen: the first that there is. */
export function readChoice(query: Readonly<Record<string, string>>, languages: readonly WordedLanguage[]): Choice {
  const [base, ...others] = languages;
  const chosen = others.filter(({ tag }) => query[`lang-${tag}`] !== undefined);
  const beside = chosen.length > 0 ? chosen : others.slice(0, 1);
  const page = Number(query.page);
  return {
    languages: base === undefined ? beside : [base, ...beside],
    area: query.area ?? '',
    search: (query.search ?? '').trim(),
    only: shows.find((one) => one === query.only) ?? 'all',
    page: Number.isInteger(page) && page > 0 ? page : 1,
  };
}

/** Behind the question mark of an address. */
export function writeChoice({ languages, area, search, only }: Choice, page: number): string {
  const fields = new URLSearchParams(languages.slice(1).map(({ tag }) => [`lang-${tag}`, 'on']));
  for (const [name, value] of Object.entries({ area, search, only: only === 'all' ? '' : only })) if (value !== '') fields.set(name, value);
  if (page > 1) fields.set('page', String(page));
  return fields.toString();
}
