// The files that ship with pipit as an edition, and the same after edits of them. Only what an edit touches is read again.

import { join } from 'node:path';
import type { Edition } from '../../src/authoring/changes/change.ts';
import { changesBetween } from '../../src/authoring/changes/changes-between.ts';
import { readCatalogues } from '../../src/authoring/read-catalogue.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import { readProtocol } from '../../src/authoring/read-protocol.ts';
import { readReferenceCases } from '../../src/authoring/read-reference-cases.ts';
import type { Vocabulary } from '../../src/authoring/vocabulary.ts';
import type { Report, SourceFile } from '../../src/authoring/yaml-source.ts';
import { sourceOf, sourcesIn } from '../../src/cli/load-files.ts';
import { wordingIn } from '../../src/cli/load-published.ts';
import { interpreterFor } from '../../src/clinical/interpret.ts';
import type { Protocol } from '../../src/clinical/protocol.ts';
import { defaultProtocol, flowsFolder } from '../support/default-protocol.ts';

const flowNames = ['first-day-exam', 'postnatal-contact', 'recheck'];
const shippedSources: readonly SourceFile[] = [
  ...sourcesIn(join(flowsFolder, 'protocol'), 'flows/protocol'),
  ...flowNames.map((name) => sourceOf(join(flowsFolder, `${name}.yaml`), `flows/${name}.yaml`)),
  sourceOf(join(flowsFolder, 'reference', 'must-ask.yaml'), 'flows/reference/must-ask.yaml'),
  ...sourcesIn(join(flowsFolder, 'reference-cases'), 'flows/reference-cases'),
  ...wordingIn(join(flowsFolder, '..', 'locales')),
];

const refuse: Report = (fault) => {
  if (fault.severity === 'error') throw new Error(`The edition cannot be read: ${JSON.stringify(fault)}`);
};

const protocolFolder = 'flows/protocol/';
const under = (sources: readonly SourceFile[], folder: string): SourceFile[] => sources.filter(({ name }) => name.startsWith(folder));

type Read = Edition & { readonly protocol: Protocol; readonly vocabulary: Vocabulary };

/** Takes    known: an edition whose values stand for those of the files that are the same. */
function readWhole(sources: readonly SourceFile[], known?: Read): Read {
  const isSame = (folder: string): boolean =>
    known !== undefined && JSON.stringify(under(sources, folder)) === JSON.stringify(under(known.sources, folder));
  const isSameProtocol = isSame(protocolFolder);
  const { protocol, vocabulary } = known && isSameProtocol ? known : readWholeProtocol(sources);
  const flowSources = sources.filter(({ name }) => /^flows\/[^/]+\.yaml$/.test(name));
  return {
    sources,
    protocol,
    vocabulary,
    flows: flowSources.flatMap((source) => readFlow(source, vocabulary, refuse) ?? []),
    catalogues: known && isSame('locales/') ? known.catalogues : readCatalogues(under(sources, 'locales/'), refuse),
    cases:
      known && isSameProtocol && isSame('flows/reference-cases/')
        ? known.cases
        : readReferenceCases(under(sources, 'flows/reference-cases/'), protocol, refuse),
    interpret: known && isSameProtocol ? known.interpret : interpreterFor(protocol),
  };
}

function readWholeProtocol(sources: readonly SourceFile[]): Pick<Read, 'protocol' | 'vocabulary'> {
  const files = under(sources, protocolFolder).map(({ name, text }) => ({ name: name.slice(protocolFolder.length), text }));
  const read = readProtocol(files, protocolFolder);
  if (read.kind !== 'protocol') throw new Error(`The protocol cannot be read: ${JSON.stringify(read.diagnostics[0])}`);
  const { growth } = defaultProtocol;
  return { protocol: { ...read.protocol, ...(growth === undefined ? {} : { growth }) }, vocabulary: read.vocabulary };
}

const read = readWhole(shippedSources);
export const shipped: Edition = read;

export type Edit = readonly [file: string, from: string | RegExp, to: string];

/** Each edit once, where it first fits; one that fits nowhere fails the test. */
export function edition(...edits: readonly Edit[]): Edition {
  const sources = edits.reduce<readonly SourceFile[]>((all, [file, from, to]) => {
    const text = all.find(({ name }) => name === file)?.text;
    const edited = text?.replace(from, to);
    if (edited === undefined || edited === text) throw new Error(`Nothing in ${file} is ${String(from)}.`);
    return all.map((source) => (source.name === file ? { name: file, text: edited } : source));
  }, shippedSources);
  return readWhole(sources, read);
}

export function without(isOut: (file: string) => boolean): Edition {
  return readWhole(
    shippedSources.filter(({ name }) => !isOut(name)),
    read,
  );
}

export function withFiles(...files: readonly SourceFile[]): Edition {
  return readWhole([...shippedSources, ...files], read);
}

/** Every file written otherwise. */
export function relaid(write: (text: string) => string): Edition {
  return readWhole(
    shippedSources.map(({ name, text }) => ({ name, text: write(text) })),
    read,
  );
}

/** Of each change its kind, then its values in the order of their places. */
export function saidOf(edits: readonly Edit[]): string[] {
  return changesBetween(shipped, edition(...edits)).map(({ kind, values }) => [kind, ...Object.values(values)].join(' | '));
}
