// The files that have a schema, as they ship; and each held against its schema as an editor does it, and against its own reader with
// the names of the shipped protocol, so that a test can compare the two.

import { Ajv2020, type AnySchema, type ValidateFunction } from 'ajv/dist/2020.js';
import { parse } from 'yaml';
import { checkMustAsk } from '../../src/authoring/checks/must-ask.ts';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readAdvice, readRows, readSources } from '../../src/authoring/read-advice.ts';
import { readBilirubin } from '../../src/authoring/read-bilirubin.ts';
import { readCatalogues } from '../../src/authoring/read-catalogue.ts';
import {
  gatherFamilies,
  readClassifications,
  readConditions,
  readContradictions,
  readNeeds,
} from '../../src/authoring/read-classifications.ts';
import { readContacts, readDoses, readFeeds } from '../../src/authoring/read-doses.ts';
import { readFields } from '../../src/authoring/read-fields.ts';
import { readFindings } from '../../src/authoring/read-findings.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import { readFollowUp } from '../../src/authoring/read-follow-up.ts';
import { readLimits, readSwitches } from '../../src/authoring/read-limits.ts';
import { readPlaces } from '../../src/authoring/read-places.ts';
import { readReferenceCases } from '../../src/authoring/read-reference-cases.ts';
import { readRowsWithoutRule } from '../../src/authoring/read-rows-without-rule.ts';
import { readSignOff } from '../../src/authoring/read-sign-off.ts';
import { type SchemaName, schemaFor, schemaNamed, schemaNames } from '../../src/authoring/schemas/schema-for.ts';
import { type Place, type Report, readYaml, type SourceFile } from '../../src/authoring/yaml-source.ts';
import { sourcesIn } from '../../src/cli/load-files.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import { wordingIn } from '../../src/cli/load-published.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const { files: protocolFiles, read } = loadProtocol(`${flowsFolder}/protocol`);
if (read.kind !== 'protocol') throw new Error('The protocol that ships cannot be read; see protocol-reading.test.ts.');
const { protocol, vocabulary, review } = read;

const locales = wordingIn(new URL('../../locales', import.meta.url).pathname);

export const shipped: readonly SourceFile[] = [...sourcesIn(flowsFolder, 'flows'), ...locales].filter(
  ({ name }) => schemaFor(name) !== null,
);

const flows = shipped.filter(({ name }) => /^flows\/[^/]+$/.test(name)).flatMap((source) => readFlow(source, vocabulary, () => {}) ?? []);

const ajv = new Ajv2020({ strictTypes: false, strictTuples: false });
ajv.addKeyword('patternErrorMessage');
const validators = new Map<string, ValidateFunction>(schemaNames.map((name) => [name, ajv.compile(schemaNamed(name) as AnySchema)]));

export function shippedFile(name: string): SourceFile {
  const file = shipped.find((one) => one.name === name);
  if (file === undefined) throw new Error(`No file ${name} ships.`);
  return file;
}

const titleOf = (schema: object | null) => (schema as { title?: string } | null)?.title;
const nameByTitle = new Map(schemaNames.map((name) => [titleOf(schemaNamed(name)), name]));
const kinds = new Map(shipped.map(({ name }) => [name, nameByTitle.get(titleOf(schemaFor(name)))]));

/** The kind of schema of a file that ships. */
export function kindOf(file: string): SchemaName {
  const kind = kinds.get(file);
  if (kind === undefined) throw new Error(`No file ${file} with a schema ships.`);
  return kind;
}

/** What the schema has against this value, as an editor sees it; null when it is taken. */
export function refusalOf(kind: SchemaName, value: unknown): string | null {
  const validate = validators.get(kind);
  if (validate === undefined || validate(value)) return null;
  return ajv.errorsText(validate.errors);
}

export const refusalOfText = (kind: SchemaName, text: string): string | null => refusalOf(kind, parse(text));

/** The errors that the file's own reader reports when this text stands in its place. */
export function errorsIn({ name, text }: SourceFile): Diagnostic[] {
  const errors: Diagnostic[] = [];
  readAs[kindOf(name)]({ name, text }, (diagnostic) => {
    if (diagnostic.severity === 'error') errors.push(diagnostic);
  });
  return errors;
}

type Reader = (source: SourceFile, report: Report) => unknown;

const top = (reader: (place: Place, report: Report) => unknown): Reader => {
  return (source, report) => {
    const place = readYaml(source, report);
    return place === null ? null : reader(place, report);
  };
};

const tops = new Map(protocolFiles.map((file) => [file.name, readYaml(file, () => {})]));
const signOffNames = { protocol, tops, uses: review.uses, without: review.withoutRule };

const readAs: Readonly<Record<SchemaName, Reader>> = {
  flow: (source, report) => readFlow(source, vocabulary, report),
  advice: top((place, report) => readAdvice(place, vocabulary, report)),
  bilirubin: top((place, report) => readBilirubin(place, vocabulary, report)),
  classifications: top((place, report) => {
    gatherFamilies([place], report);
    return readClassifications(place, vocabulary, report);
  }),
  conditions: top((place, report) => readConditions(place, { ...vocabulary, conditions: new Map() }, report)),
  contacts: top((place, report) => readContacts(place, vocabulary, report)),
  contradictions: top((place, report) => readContradictions(place, vocabulary, report)),
  doses: top((place, report) => readDoses(place, vocabulary, report)),
  feeds: top((place, report) => readFeeds(place, vocabulary, report)),
  fields: top(readFields),
  findings: top((place, report) => readFindings(place, vocabulary.limits, report)),
  'follow-up': top(readFollowUp),
  limits: top((place, report) => readLimits(place, vocabulary.switches, report)),
  needs: top((place, report) => readNeeds(place, vocabulary, report)),
  rows: top(readRows),
  'rows-without-rule': top(readRowsWithoutRule),
  'sign-off': top((place, report) => readSignOff(place, signOffNames, report)),
  sources: top(readSources),
  switches: top(readSwitches),
  'must-ask': (source, report) => checkMustAsk(source, flows, report),
  places: (source, report) => void readPlaces(source, report),
  'reference-cases': (source, report) => readReferenceCases([source], protocol, report),
  locale: (source, report) => readCatalogues(languageWith(source), report),
};

/** All files of the language and of the base, with this one in its place. */
function languageWith(source: SourceFile): SourceFile[] {
  const [, tag = ''] = source.name.split('/');
  const own = locales.filter(({ name }) => name.startsWith(`locales/${tag}/`) || name.startsWith('locales/en/'));
  return own.map((file) => (file.name === source.name ? source : file));
}
