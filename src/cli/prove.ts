// Reads a set of files, flows, protocol, growth tables and wording, and proves it. All files are read before anything is said, so
// that an author sees every fault at once. Touches no disk: a draft is proved as a folder is. Next: bind-published.ts.

import { checkAlternativeCoverage } from '../authoring/checks/alternative-coverage.ts';
import { checkFloorCoverage } from '../authoring/checks/floor-coverage.ts';
import { judgeCases } from '../authoring/checks/judged-cases.ts';
import { checkLengths, checkPlacesAreKnown } from '../authoring/checks/lengths.ts';
import { checkMustAdvise } from '../authoring/checks/must-advise.ts';
import { checkMustAsk } from '../authoring/checks/must-ask.ts';
import { checkProofs } from '../authoring/checks/proofs.ts';
import { checkRuleCoverage } from '../authoring/checks/rule-coverage.ts';
import { checkSafetyFloor } from '../authoring/checks/safety-floor.ts';
import { checkWording } from '../authoring/checks/wording.ts';
import { type Diagnostic, sortDiagnostics } from '../authoring/diagnostic.ts';
import { readCatalogues } from '../authoring/read-catalogue.ts';
import { readFlow } from '../authoring/read-flow.ts';
import { readGrowthTables } from '../authoring/read-growth-tables.ts';
import { readPlaces } from '../authoring/read-places.ts';
import { readProtocol } from '../authoring/read-protocol.ts';
import { type ReferenceCase, readReferenceCases } from '../authoring/read-reference-cases.ts';
import type { Report, SourceFile } from '../authoring/yaml-source.ts';
import { bindGrowth } from '../clinical/growth.ts';
import { type DrawnBaby, growthCurves } from '../clinical/growth-curves.ts';
import type { GrowthTables } from '../clinical/growth-tables.ts';
import type { Flow } from '../dialog/flow.ts';
import type { Edition } from './bind-published.ts';

export interface Proved {
  readonly diagnostics: readonly Diagnostic[];
  /** Null when there is an error among the diagnostics. */
  readonly edition: ProvedEdition | null;
}

export interface ProvedEdition extends Edition {
  readonly cases: readonly ReferenceCase[];
}

/**
 * What the files say, with everything that is wrong with them.
 *
 * Takes    files: named as `flows/recheck.yaml`, `locales/en/signs.yaml`.
 *          trusted: true leaves out what runs the reference cases, for files that were proved when they were published.
 */
export function prove(files: readonly SourceFile[], { trusted = false } = {}): Proved {
  const under = (folder: string): SourceFile[] => files.filter(({ name }) => name.startsWith(folder));
  const yamlUnder = (folder: string): SourceFile[] => under(folder).filter(({ name }) => /\.ya?ml$/.test(name));
  const protocolSources = yamlUnder(protocolFolder);
  const flowSources = files.filter(({ name }) => /^flows\/[^/]+\.yaml$/.test(name));
  const diagnostics: Diagnostic[] = [];
  const report: Report = (diagnostic) => diagnostics.push(diagnostic);

  const ownSources = protocolSources.map(({ name, text }) => ({ name: name.slice(protocolFolder.length), text }));
  const read = readProtocol(ownSources, protocolFolder);
  diagnostics.push(...(read.kind === 'protocol' ? read.warnings : read.diagnostics));
  const catalogues = readCatalogues(yamlUnder('locales/'), report);
  const flows = read.kind === 'protocol' ? flowSources.flatMap((source) => readFlow(source, read.vocabulary, report) ?? []) : [];
  const base = catalogues.byTag.get(catalogues.base);
  if (read.kind === 'protocol' && base !== undefined) checkWording(flows, read.protocol, base, report);
  // A flow that cannot be read is said to be so, and not to ask nothing.
  if (flows.length === flowSources.length) checkMustAsk(referenceIn(files, 'must-ask'), flows, report);
  const placesFile = referenceIn(files, 'places');
  const places = readPlaces(placesFile, report);
  if (base !== undefined) checkPlacesAreKnown(base, places, placesFile.name, report);
  for (const catalogue of catalogues.byTag.values()) checkLengths(catalogue, places, report);
  const tables = growthIn(under(referenceFolder), report);

  const isSound = (): boolean => !diagnostics.some((one) => one.severity === 'error');
  if (read.kind !== 'protocol' || tables === null || !isSound()) return { diagnostics: sortDiagnostics(diagnostics), edition: null };
  const protocol = { ...read.protocol, growth: bindGrowth(tables) };
  const curves = (baby: DrawnBaby, untilDays: number) => growthCurves(tables, baby, untilDays, protocol.lines);
  const cases = trusted ? [] : readReferenceCases(yamlUnder('flows/reference-cases/'), protocol, report);
  if (!trusted) {
    const proved = byGuideline({ read, flows }, ownSources, flowSources);
    const judged = { ...proved.read.protocol, growth: protocol.growth };
    const judgedCases = judgeCases(cases, judged);
    checkSafetyFloor(judgedCases, report);
    checkFloorCoverage(cases, judged, protocolSources, report);
    checkRuleCoverage(judgedCases, judged, protocolSources, report);
    checkAlternativeCoverage(judgedCases, judged, protocolSources, report);
    checkMustAdvise(referenceIn(files, 'must-advise'), judged, report);
    const questions = referenceIn(files, 'questions');
    const { vocabulary } = proved.read;
    checkProofs({ flows: proved.flows, protocol: judged, vocabulary, cases, flowSources, protocolSources, questions }, report);
  }
  const edition = isSound() ? { flows, protocol, followUp: read.followUp, catalogues, curves, cases } : null;
  return { diagnostics: sortDiagnostics(diagnostics), edition };
}

interface ReadSet {
  readonly read: Extract<ReturnType<typeof readProtocol>, { kind: 'protocol' }>;
  readonly flows: readonly Flow[];
}

/**
 * The same files with every switch as the guideline sets it: what is proved does not hang on what the programme chose, for each option
 * of a switch has reference cases of its own, which choose it.
 */
function byGuideline(set: ReadSet, protocolSources: readonly SourceFile[], flowSources: readonly SourceFile[]): ReadSet {
  const isChosen = [...set.read.protocol.switches.values()].some(({ options, guideline }) => options[0] !== guideline);
  const read = isChosen ? readProtocol(protocolSources, protocolFolder, 'guideline') : set.read;
  if (read.kind !== 'protocol' || read === set.read) return set;
  return { read, flows: flowSources.flatMap((source) => readFlow(source, read.vocabulary, () => {}) ?? []) };
}

const protocolFolder = 'flows/protocol/';
const referenceFolder = 'flows/reference/';

/** An older set may lack it: then it reads as empty, and what should stand in it is asked for. */
function referenceIn(files: readonly SourceFile[], of: string): SourceFile {
  const name = `${referenceFolder}${of}.yaml`;
  return files.find((file) => file.name === name) ?? { name, text: '{}' };
}

function growthIn(files: readonly SourceFile[], report: Report): GrowthTables | null {
  const read = readGrowthTables(new Map(files.map(({ name, text }) => [name.slice(referenceFolder.length), text])));
  if (read.kind === 'tables') return read.tables;
  for (const diagnostic of read.diagnostics) report({ ...diagnostic, file: `${referenceFolder}${diagnostic.file}` });
  return null;
}
