// Reads everything that is published, flows, protocol, growth tables and wording, and binds it. All files are read before
// anything is said, so that an author sees every fault at once.

import { createHash } from 'node:crypto';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { checkFloorCoverage } from '../authoring/checks/floor-coverage.ts';
import { checkLengths } from '../authoring/checks/lengths.ts';
import { checkMustAsk } from '../authoring/checks/must-ask.ts';
import { checkRuleCoverage } from '../authoring/checks/rule-coverage.ts';
import { checkSafetyFloor } from '../authoring/checks/safety-floor.ts';
import { checkWording } from '../authoring/checks/wording.ts';
import { type Diagnostic, renderDiagnostic, sortDiagnostics } from '../authoring/diagnostic.ts';
import { readCatalogues } from '../authoring/read-catalogue.ts';
import { readFlow } from '../authoring/read-flow.ts';
import { readProtocol } from '../authoring/read-protocol.ts';
import { readReferenceCases } from '../authoring/read-reference-cases.ts';
import type { Report, SourceFile } from '../authoring/yaml-source.ts';
import { bindGrowth } from '../clinical/growth.ts';
import { interpret } from '../clinical/interpret.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { Published } from '../conversation/book.ts';
import type { Flow } from '../dialog/flow.ts';
import { type Catalogues, withoutDrafts } from '../messages/catalogue.ts';
import type { FollowUp } from '../on-call/follow-up.ts';
import type { Config } from './config.ts';
import { sourceOf, sourcesIn } from './load-files.ts';
import { loadGrowthTables } from './load-growth-tables.ts';
import { protocolFiles } from './load-protocol.ts';

/** The flow that each beginning starts. */
const flowFor = { 'new-baby': 'first-day-exam', contact: 'postnatal-contact', recheck: 'recheck' } as const;

export interface Loaded {
  readonly sources: readonly SourceFile[];
  readonly diagnostics: readonly Diagnostic[];
  /** Null when there is an error among the diagnostics. */
  readonly published: Published | null;
}

type Places = Pick<Config, 'flows' | 'locales' | 'PIPIT_ALLOW_DRAFTS'>;

export async function loadAll(places: Places): Promise<Loaded> {
  const files = protocolFiles(join(places.flows, 'protocol'));
  const protocolSources = files.map((file) => ({ ...file, name: `flows/protocol/${file.name}` }));
  const flowSources = readdirSync(places.flows)
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => sourceOf(join(places.flows, name), `flows/${name}`));
  const localeSources = sourcesIn(places.locales, 'locales');
  const caseSources = sourcesIn(join(places.flows, 'reference-cases'), 'flows/reference-cases');
  const mustAsk = mustAskIn(places.flows);
  const sources = [...protocolSources, ...flowSources, mustAsk, ...caseSources, ...localeSources];

  const diagnostics: Diagnostic[] = [];
  const report: Report = (diagnostic) => diagnostics.push(diagnostic);
  const read = readProtocol(files, 'flows/protocol/');
  diagnostics.push(...(read.kind === 'protocol' ? read.warnings : read.diagnostics));
  const catalogues = readCatalogues(localeSources, report);
  const flows = read.kind === 'protocol' ? flowSources.flatMap((source) => readFlow(source, read.vocabulary, report) ?? []) : [];
  const base = catalogues.byTag.get(catalogues.base);
  if (read.kind === 'protocol' && base !== undefined) checkWording(flows, read.protocol, base, report);
  // A flow that cannot be read is said to be so, and not to ask nothing.
  if (flows.length === flowSources.length) checkMustAsk(mustAsk, flows, report);
  for (const catalogue of catalogues.byTag.values()) checkLengths(catalogue, report);

  const isSound = (): boolean => !diagnostics.some((one) => one.severity === 'error');
  if (read.kind !== 'protocol' || !isSound()) return { sources, diagnostics: sortDiagnostics(diagnostics), published: null };
  const growth = bindGrowth(await loadGrowthTables(join(places.flows, 'reference')));
  const protocol: Protocol = { ...read.protocol, growth };
  const cases = readReferenceCases(caseSources, protocol, report);
  checkSafetyFloor(cases, protocol, report);
  checkFloorCoverage(cases, protocol, protocolSources, report);
  checkRuleCoverage(cases, protocol, protocolSources, report);
  const published = isSound() ? bind(protocol, read.followUp, flows, catalogues, sources, places) : null;
  return { sources, diagnostics: sortDiagnostics(diagnostics), published };
}

/** An older folder has none: then every flow is said to lack its list. */
function mustAskIn(flows: string): SourceFile {
  const [name, path] = ['flows/reference/must-ask.yaml', join(flows, 'reference', 'must-ask.yaml')];
  return existsSync(path) ? sourceOf(path, name) : { name, text: '{}' };
}

function bind(
  protocol: Protocol,
  followUp: FollowUp,
  flows: readonly Flow[],
  catalogues: Catalogues,
  sources: readonly SourceFile[],
  places: Places,
): Published {
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const order = new Map(protocol.advice.map(({ key }, at) => [key, at]));
  return {
    version: versionOf(sources),
    flows,
    flowFor,
    findings: protocol.findingById,
    ranges: { gestation: measure(protocol, 'gestation'), weight: measure(protocol, 'weight'), 'age-days': ageInDays(protocol) },
    interpret: (aCase) => interpret(protocol, aCase),
    adviceOf: (id) => [...(rules.get(id)?.advice ?? [])].sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0)),
    isBox: (id) => rules.get(id)?.box ?? false,
    isForAuthorised: (key) => protocol.advice.some((advice) => advice.key === key && advice.authorised),
    doseBasis: (drug, row) =>
      protocol.doses
        .filter((dose) => dose.drug === drug)
        .flatMap((dose) => dose.amounts)
        .find((amount) => amount.row === row),
    sourcesOf: (rowIds) => sourceCodes(protocol, rowIds),
    followUp,
    catalogues: places.PIPIT_ALLOW_DRAFTS ? catalogues : withoutDrafts(catalogues),
  };
}

/** The guideline codes named in what is said of the rows' sources, in the order first met. */
function sourceCodes(protocol: Protocol, rowIds: readonly string[]): string[] {
  const said = rowIds.map((id) => protocol.rows.get(id)?.source ?? '').join(' ');
  const words = said.split(/[^A-Za-z0-9-]+/);
  return [...new Set(words.filter((word) => protocol.sources.has(word)))];
}

function measure(protocol: Protocol, id: string) {
  const found = protocol.measures.get(id);
  if (found === undefined)
    throw new Error(`fields.yaml has no field "${id}", and the dialog reads it. Put it back from the last version that worked.`);
  return found;
}

function ageInDays(protocol: Protocol) {
  const age = measure(protocol, 'age');
  return { ...age, low: 0, high: Math.floor(age.high / 24), decimals: 0, unit: '' };
}

/** A name for exactly these files: the first sixteen hex digits of their SHA-256. */
function versionOf(sources: readonly SourceFile[]): string {
  const hash = createHash('sha256');
  for (const { name, text } of sources) hash.update(`${name}\0${text}\0`);
  return hash.digest('hex').slice(0, 16);
}

/** Errors: every fault in the files, rendered, as one Error. */
export async function loadPublished(places: Places): Promise<Published> {
  const { published, diagnostics, sources } = await loadAll(places);
  if (published !== null) return published;
  const texts = new Map(sources.map(({ name, text }) => [name, text]));
  const errors = diagnostics.filter((one) => one.severity === 'error');
  throw new Error(
    `The flows, protocol or wording cannot be used.\n${errors.map((one) => renderDiagnostic(one, texts.get(one.file))).join('\n\n')}`,
  );
}
