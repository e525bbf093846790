// Files that a coordinator writes: flows, the protocol, wording, the longest places, reference cases; whole ones and pieces of
// them, made wrong line by line, and files of nothing but trouble. Whatever is wrong is said as a diagnostic that stands in the file
// and can be shown. A file as it ships may take longer than 50 ms to read; one made wrong may take five times as long as that.

import { type Diagnostic, renderDiagnostic } from '../../../src/authoring/diagnostic.ts';
import { readCatalogues } from '../../../src/authoring/read-catalogue.ts';
import { readFlow } from '../../../src/authoring/read-flow.ts';
import { readPlaces } from '../../../src/authoring/read-places.ts';
import { readProtocol } from '../../../src/authoring/read-protocol.ts';
import { readReferenceCases } from '../../../src/authoring/read-reference-cases.ts';
import type { Report, SourceFile } from '../../../src/authoring/yaml-source.ts';
import { filesOf } from '../../../src/cli/load-published.ts';
import type { Chance } from '../../simulation/chance.ts';
import { fileLimit } from '../file-limit.ts';
import { hostileYaml, mutateFile } from '../mutate.ts';
import type { Input, Outcome, Target } from '../target.ts';

const root = new URL('../../../', import.meta.url).pathname;
const shipped = filesOf({ flows: `${root}flows`, locales: `${root}locales` });
const named = (pattern: RegExp): readonly SourceFile[] => shipped.filter(({ name }) => pattern.test(name));
const flows = named(/^flows\/[^/]+\.yaml$/);
const protocolSources = named(/^flows\/protocol\//).map(({ name, text }) => ({ name: name.replace('flows/protocol/', ''), text }));
const wording = named(/^locales\/(en|fr)\//);
const cases = named(/^flows\/reference-cases\//);
const places = named(/^flows\/reference\/places\.yaml$/);

const read = readProtocol(protocolSources);
if (read.kind !== 'protocol') throw new Error('The protocol that ships cannot be read. Run npm run pipit -- check.');
const { vocabulary, protocol } = read;

/** What begins a list item or a name of the outermost level that items stand in. */
const item = /^(?= {2}- |- | {2}[\w-]+:)/m;

/** A few of the parts of a file, behind its head, so that reading one is quick and what is wrong is met. */
function pieceOf(text: string, chance: Chance): string {
  const [head = '', ...parts] = text.split(item);
  if (parts.length < 3 || chance.is(0.3)) return text;
  const from = chance.whole(0, parts.length - 1);
  return [head, ...parts.slice(from, from + chance.whole(1, 6)), ...(chance.is(0.5) ? parts.slice(-1) : [])].join('');
}

function wrong(text: string, chance: Chance): string {
  const kind = chance.next();
  if (kind < 0.05) return text;
  return kind < 0.12 ? hostileYaml(chance) : mutateFile(text, 'yaml', chance);
}

/** Errors: a diagnostic stands outside the file, says nothing, or cannot be shown. */
function judged(texts: ReadonlyMap<string, string>, diagnostics: readonly Diagnostic[]): Outcome {
  for (const diagnostic of diagnostics) {
    const { what, why, fix, code, range } = diagnostic;
    if ([what, why, fix, code].some((said) => said.trim() === ''))
      throw new Error(`A diagnostic says nothing: ${JSON.stringify(diagnostic)}`);
    if (range.start.line < 1 || range.start.column < 1) throw new Error(`A diagnostic stands nowhere: ${JSON.stringify(diagnostic)}`);
    renderDiagnostic(diagnostic, texts.get(diagnostic.file));
  }
  if (diagnostics.some(({ code }) => code === 'yaml/not-readable')) return 'refused-at-once';
  return diagnostics.some(({ severity }) => severity === 'error') ? 'refused' : 'accepted';
}

interface Kind {
  readonly name: string;
  readonly share: number;
  readonly files: readonly SourceFile[];
  readonly isWhole?: boolean;
  readonly read: (source: SourceFile, report: Report) => void;
}

function longestOf(files: readonly SourceFile[]): SourceFile {
  return files.reduce((longest, one) => (one.text.length > longest.text.length ? one : longest));
}

function fileTarget(kind: Kind): Target {
  return {
    name: `files/${kind.name}`,
    share: kind.share,
    limitMilliseconds: fileLimit(() => kind.read(longestOf(kind.files), () => {})),
    draw: (chance) => {
      const file = chance.pick(kind.files);
      return [file.name, wrong(kind.isWhole === true ? file.text : pieceOf(file.text, chance), chance)];
    },
    take: ([name = '', text = '']: Input) => {
      const diagnostics: Diagnostic[] = [];
      kind.read({ name, text }, (diagnostic) => diagnostics.push(diagnostic));
      return judged(new Map([[name, text]]), diagnostics);
    },
  };
}

/** A language is described in one of its files. */
function withHeader(source: SourceFile): SourceFile[] {
  const header = wording.find(({ name }) => name === source.name.replace(/[^/]*$/, 'language.yaml'));
  return header === undefined || header.name === source.name ? [source] : [header, source];
}

function readProtocolWith(source: SourceFile, report: Report): void {
  const outcome = readProtocol(protocolSources.map((one) => (one.name === source.name ? source : one)));
  for (const diagnostic of outcome.kind === 'protocol' ? outcome.warnings : outcome.diagnostics) report(diagnostic);
}

export const authored: readonly Target[] = [
  fileTarget({ name: 'flow', share: 6, files: flows, read: (source, report) => void readFlow(source, vocabulary, report) }),
  fileTarget({ name: 'wording', share: 6, files: wording, read: (source, report) => void readCatalogues(withHeader(source), report) }),
  fileTarget({ name: 'cases', share: 4, files: cases, read: (source, report) => void readReferenceCases([source], protocol, report) }),
  fileTarget({ name: 'places', share: 5, files: places, read: (source, report) => void readPlaces(source, report) }),
  // All files of a protocol are read with the one that is wrong.
  fileTarget({ name: 'protocol', share: 0.15, files: protocolSources, isWhole: true, read: readProtocolWith }),
];
