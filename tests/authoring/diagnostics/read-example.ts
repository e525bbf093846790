// The text of an example, read as `pipit check` reads it: each table of examples has its reader, which is given the edited file and
// says what is wrong in it. What no edit changes is read once. Next: diagnostics.test.ts.

import { checkAlternativeCoverage } from '../../../src/authoring/checks/alternative-coverage.ts';
import { checkFloorCoverage } from '../../../src/authoring/checks/floor-coverage.ts';
import { judgeCases } from '../../../src/authoring/checks/judged-cases.ts';
import { checkLengths, checkPlacesAreKnown } from '../../../src/authoring/checks/lengths.ts';
import { checkMustAdvise } from '../../../src/authoring/checks/must-advise.ts';
import { checkMustAsk } from '../../../src/authoring/checks/must-ask.ts';
import { checkProofs } from '../../../src/authoring/checks/proofs.ts';
import { checkRuleCoverage } from '../../../src/authoring/checks/rule-coverage.ts';
import { checkSafetyFloor } from '../../../src/authoring/checks/safety-floor.ts';
import { checkWording } from '../../../src/authoring/checks/wording.ts';
import type { Diagnostic } from '../../../src/authoring/diagnostic.ts';
import { readCatalogues } from '../../../src/authoring/read-catalogue.ts';
import { readCondition } from '../../../src/authoring/read-condition.ts';
import { readFlow } from '../../../src/authoring/read-flow.ts';
import { readGrowthTables } from '../../../src/authoring/read-growth-tables.ts';
import { readPlaces } from '../../../src/authoring/read-places.ts';
import { readProtocol } from '../../../src/authoring/read-protocol.ts';
import { readReferenceCases } from '../../../src/authoring/read-reference-cases.ts';
import { type Report, readYaml, type SourceFile } from '../../../src/authoring/yaml-source.ts';
import { sourcesIn } from '../../../src/cli/load-files.ts';
import { readGrowthFiles } from '../../../src/cli/load-growth-tables.ts';
import { protocolFiles } from '../../../src/cli/load-protocol.ts';
import { wordingIn } from '../../../src/cli/load-published.ts';
import { defaultProtocol, flowsFolder } from '../../support/default-protocol.ts';
import { referenceCases } from '../../support/reference-cases.ts';
import { read as readRosterTables, sound, type Texts } from '../roster-tables.ts';
import { defaultVocabulary } from '../shipped-flow.ts';

const locales = wordingIn(`${flowsFolder}/../locales`);
const growth = await readGrowthFiles(`${flowsFolder}/reference`);
const shippedFlows = sourcesIn(flowsFolder, 'flows').filter(({ name }) => /^flows\/[a-z-]+\.yaml$/.test(name));
const protocol = protocolFiles(`${flowsFolder}/protocol`).map((one) => ({ ...one, name: `flows/protocol/${one.name}` }));
const others = sourcesIn(flowsFolder, 'flows').filter(({ name }) => /^flows\/(reference|reference-cases)\/[a-z-]+\.yaml$/.test(name));

/** Every file that an example may edit, by its name. */
export const editable: ReadonlyMap<string, string> = new Map([
  ...[...protocol, ...shippedFlows, ...others, ...locales].map(({ name, text }) => [name, text] as const),
  ...[...growth].map(([name, text]) => [`flows/reference/${name}`, text] as const),
  ...Object.entries(sound).map(([table, text]) => [`${table}.csv`, text] as const),
]);

type Reader = (edited: SourceFile, report: Report) => void | Promise<void>;

/** A file without a text is one that was lost. */
const within = (files: readonly SourceFile[], edited: SourceFile): SourceFile[] =>
  files.map((one) => (one.name === edited.name ? edited : one)).filter(({ text }) => text !== '');

function readEditedProtocol(edited: SourceFile, report: Report) {
  const files = within(protocol, edited).map((one) => ({ ...one, name: one.name.replace('flows/protocol/', '') }));
  const read = readProtocol(files, 'flows/protocol/');
  for (const one of read.kind === 'faulty' ? read.diagnostics : read.warnings) report(one);
  return read.kind === 'faulty' ? null : read;
}

const find = (name: string, edited: SourceFile): SourceFile =>
  within(others, edited).find((one) => one.name === name) ?? { name, text: '{}' };

/** As loadAll joins them, without what the example is not about. */
function prove(edited: SourceFile, report: Report): void {
  const isOfProtocol = edited.name.startsWith('flows/protocol/');
  const read = isOfProtocol ? readEditedProtocol(edited, report) : { protocol: defaultProtocol, vocabulary: defaultVocabulary };
  if (read === null) return;
  const flowSources = within(shippedFlows, edited);
  const flows = flowSources.flatMap((source) => readFlow(source, read.vocabulary, report) ?? []);
  checkProofs(
    {
      flows,
      flowSources,
      protocol: { ...read.protocol, growth: defaultProtocol.growth } as typeof defaultProtocol,
      vocabulary: read.vocabulary,
      cases: referenceCases,
      protocolSources: within(protocol, edited),
      questions: find('flows/reference/questions.yaml', edited),
    },
    report,
  );
}

function coverage(edited: SourceFile, report: Report): void {
  const files = within(others, edited).filter(({ name }) => name.startsWith('flows/reference-cases/'));
  const cases = readReferenceCases(files, defaultProtocol, report);
  const judged = judgeCases(cases, defaultProtocol);
  checkFloorCoverage(cases, defaultProtocol, protocol, report);
  for (const check of [checkRuleCoverage, checkAlternativeCoverage]) check(judged, defaultProtocol, protocol, report);
}

/** By table of examples. */
const readers: Readonly<Record<string, Reader>> = {
  condition: (edited, report) => {
    const top = readYaml(edited, report);
    if (top !== null) readCondition(top, defaultVocabulary, report);
  },
  flow: (edited, report) => void readFlow(edited, defaultVocabulary, report),
  'must-ask': (edited, report) => {
    const flows = within(shippedFlows, edited).flatMap((source) => readFlow(source, defaultVocabulary, report) ?? []);
    const asked = within(others, edited).find(({ name }) => name === 'flows/reference/must-ask.yaml');
    if (asked !== undefined) checkMustAsk(asked, flows, report);
  },
  'must-advise': (edited, report) => {
    const listed = within(others, edited).find(({ name }) => name === 'flows/reference/must-advise.yaml');
    const read = edited.name.startsWith('flows/protocol/') ? readEditedProtocol(edited, report) : { protocol: defaultProtocol };
    if (listed !== undefined && read !== null) checkMustAdvise(listed, read.protocol, report);
  },
  protocol: (edited, report) => void readEditedProtocol(edited, report),
  proof: prove,
  floor: (edited, report) => {
    if (!edited.name.startsWith('flows/protocol/')) return void readReferenceCases([edited], defaultProtocol, report);
    const read = readEditedProtocol(edited, report);
    if (read === null) return;
    const edition = { ...read.protocol, growth: defaultProtocol.growth } as typeof defaultProtocol;
    checkSafetyFloor(judgeCases(referenceCases, edition), report);
  },
  coverage,
  growth: ({ name, text }, report) => {
    const read = readGrowthTables(
      new Map([...new Map([...growth, [name.replace('flows/reference/', ''), text]])].filter(([, one]) => one !== '')),
    );
    if (read.kind === 'refused') for (const one of read.diagnostics) report({ ...one, file: `flows/reference/${one.file}` });
  },
  roster: ({ name, text }, report) => {
    for (const one of readRosterTables({ ...sound, [name.replace('.csv', '')]: text } as Texts).faults) report(one);
  },
  language: (edited, report) => {
    const base = { name: 'locales/en.yaml', text: languageOf('en', 'English', baseWords) };
    readCatalogues(edited.name === base.name ? [edited] : [base, edited], report);
  },
  wording: (edited, report) => {
    const { byTag, base } = readCatalogues(within(locales, edited), report);
    const places = readPlaces(find('flows/reference/places.yaml', edited), report);
    for (const catalogue of byTag.values()) checkLengths(catalogue, places, report);
    const flows = shippedFlows.flatMap((source) => readFlow(source, defaultVocabulary, report) ?? []);
    const catalogue = byTag.get(base);
    if (catalogue === undefined) return;
    checkWording(flows, defaultProtocol, catalogue, report);
    checkPlacesAreKnown(catalogue, places, 'flows/reference/places.yaml', report);
  },
};

/** What stands around an example that is less than a file: steps are those of a flow that looks again, and need not ask all dangers. */
export const wholeOf = (table: string, text: string): string =>
  table === 'flow' ? `flow: try\nlooks-again: yes\nsteps:\n${text}\n  - step: result\n    result: final\n` : text;

const languageOf = (tag: string, name: string, rest: string): string =>
  `language: { tag: ${tag}, name: ${name}, alphabet: gsm-7, draft: no }\n${rest}`;
const baseWords =
  'keywords: { back: [BACK], more: [MORE] }\nmessages:\n  ask: { title: "{count} for {name}" }\n  many: "{count, plural, one {# text} other {# texts}}"\n';

/** By table: what is wrong in the files as shipped, which is asked again for each example that edits one of them. */
const asShipped = new Map<string, Promise<Diagnostic[]>>();

export function faultsIn(table: string, file: string, text: string): Promise<Diagnostic[]> {
  if (editable.get(file) !== text || table === 'floor') return read(table, file, text);
  const known = asShipped.get(table) ?? read(table, file, text);
  asShipped.set(table, known);
  return known;
}

async function read(table: string, file: string, text: string): Promise<Diagnostic[]> {
  const faults: Diagnostic[] = [];
  const reader = readers[table];
  if (reader === undefined) throw new Error(`No reader is named for ${table}.yaml in read-example.ts.`);
  await reader({ name: file, text }, (fault) => faults.push(fault));
  return faults;
}
