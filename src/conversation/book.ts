// Binds published files to what a turn looks things up in: flows, protocol and growth tables, and the words of every
// language that may be served. Built once a version; the dialog core sees only the result.

import type { AnyCase } from '../clinical/any-case.ts';
import type { Finding, Interpretation } from '../clinical/protocol.ts';
import type { Book, Command, FieldRange, Language } from '../dialog/book.ts';
import type { Flow } from '../dialog/flow.ts';
import { normalise } from '../dialog/readings/tokens.ts';
import type { Words } from '../dialog/readings/words.ts';
import type { Catalogue, Catalogues } from '../messages/catalogue.ts';
import type { FollowUp } from '../on-call/follow-up.ts';

export interface Published {
  readonly version: string;
  readonly flows: readonly Flow[];
  readonly flowFor: Book['flowFor'];
  readonly findings: ReadonlyMap<string, Finding>;
  readonly ranges: Readonly<Record<'gestation' | 'weight' | 'age-days', FieldRange>>;
  readonly interpret: (aCase: AnyCase) => Interpretation;
  readonly contradicted: Book['contradicted'];
  readonly adviceOf: Book['adviceOf'];
  readonly isBox: Book['isBox'];
  readonly isAskedAgain: Book['isAskedAgain'];
  readonly sourcesOf: Book['sourcesOf'];
  readonly doseBasis: Book['doseBasis'];
  readonly isForAuthorised: Book['isForAuthorised'];
  readonly followUp: FollowUp;
  /** Languages that may be served: drafts are left out unless the programme allows them. */
  readonly catalogues: Catalogues;
}

/** What is published, as the conversation asks it. */
export interface InForce {
  readonly book: Book;
  readonly catalogues: Catalogues;
  readonly followUp: FollowUp;
}

export function bindInForce(published: Published): InForce {
  return { book: bindBook(published), catalogues: published.catalogues, followUp: published.followUp };
}

const commands: ReadonlySet<string> = new Set<Command>([
  'new-baby',
  'contact',
  'recheck',
  'why',
  'back',
  'more',
  'menu',
  'pause',
  'go-on',
  'explain',
  'nurse',
  'language',
  'list',
]);

export function bindBook(published: Published): Book {
  const { catalogues, flows, ...rest } = published;
  const base = catalogues.byTag.get(catalogues.base);
  const others = [...catalogues.byTag.values()].filter((one) => one !== base).sort((a, b) => a.tag.localeCompare(b.tag));
  return {
    ...rest,
    flows: new Map(flows.map((flow) => [flow.id, flow])),
    languages: (base === undefined ? others : [base, ...others]).map(bindLanguage),
    has: (key) => base?.messages.has(key) ?? false,
  };
}

function bindLanguage(catalogue: Catalogue): Language {
  return { tag: catalogue.tag, name: catalogue.name, words: bindWords(catalogue), keywords: bindKeywords(catalogue) };
}

function bindWords(catalogue: Catalogue): Words {
  const readings = Object.fromEntries([...catalogue.readings].map(([what, words]) => [what, words.map(normalise)]));
  const labels = new Map([...catalogue.labels].flatMap(([of, words]) => words.map((word): [string, string] => [normalise(word), of])));
  const regions = new Map<string, string[]>();
  for (const [step, names] of catalogue.regions) {
    for (const name of names.map(normalise)) regions.set(name, [...(regions.get(name) ?? []), step]);
  }
  const signs = new Map([...catalogue.signs].flatMap(([sign, words]) => words.map((word): [string, string] => [normalise(word), sign])));
  return { readings, labels, regions, signs };
}

function bindKeywords(catalogue: Catalogue): Map<string, Command> {
  const keywords = new Map<string, Command>();
  for (const [command, words] of catalogue.keywords) {
    if (!commands.has(command)) continue;
    for (const word of words) keywords.set(normalise(word), command as Command);
  }
  return keywords;
}
