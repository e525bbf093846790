// The files of a folder that can be published, and what they come to: read, proved and bound. Next: prove.ts.

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Diagnostic, renderDiagnostic } from '../authoring/diagnostic.ts';
import type { SourceFile } from '../authoring/yaml-source.ts';
import type { Published } from '../conversation/book.ts';
import { bindPublished, versionOf } from './bind-published.ts';
import type { Config } from './config.ts';
import { sourceOf, sourcesIn } from './load-files.ts';
import { protocolFiles } from './load-protocol.ts';
import { prove } from './prove.ts';

export interface Loaded {
  readonly sources: readonly SourceFile[];
  readonly diagnostics: readonly Diagnostic[];
  /** Null when there is an error among the diagnostics. */
  readonly published: Published | null;
}

export type Places = Pick<Config, 'flows' | 'locales'>;

/** What is published as one: all that governs what a phone asks and says. Not the roster, and not what only exports need. */
export function filesOf({ flows, locales }: Places): SourceFile[] {
  const named = (folder: string, name: RegExp): SourceFile[] =>
    readdirSync(join(flows, folder))
      .filter((one) => name.test(one))
      .sort()
      .map((one) => sourceOf(join(flows, folder, one), join('flows', folder, one)));
  return [
    ...named('', /\.yaml$/),
    ...protocolFiles(join(flows, 'protocol')).map(({ name, text }) => ({ name: `flows/protocol/${name}`, text })),
    ...named('reference', /^(must-ask|must-advise|questions|places)\.yaml$|\.csv$/),
    ...sourcesIn(join(flows, 'reference-cases'), 'flows/reference-cases'),
    ...wordingIn(locales),
  ];
}

/** What phones hear. The console's own words are the program's. */
export function wordingIn(locales: string): SourceFile[] {
  return sourcesIn(locales, 'locales').filter(({ name }) => !name.startsWith('locales/console/'));
}

export function loadAll(places: Places & Pick<Config, 'PIPIT_ALLOW_DRAFTS'>): Loaded {
  const sources = filesOf(places);
  const { diagnostics, edition } = prove(sources);
  const published = edition === null ? null : bindPublished(edition, versionOf(sources), places.PIPIT_ALLOW_DRAFTS);
  return { sources, diagnostics, published };
}

/** Errors: every fault in the files, rendered, as one Error. */
export function loadPublished(places: Places & Pick<Config, 'PIPIT_ALLOW_DRAFTS'>): Published {
  const { published, diagnostics, sources } = loadAll(places);
  if (published !== null) return published;
  throw new Error(`The flows, protocol or wording cannot be used.\n${renderErrors(diagnostics, sources).join('\n\n')}`);
}

export function renderErrors(diagnostics: readonly Diagnostic[], sources: readonly SourceFile[]): string[] {
  const texts = new Map(sources.map(({ name, text }) => [name, text]));
  return diagnostics.filter(({ severity }) => severity === 'error').map((one) => renderDiagnostic(one, texts.get(one.file)));
}
