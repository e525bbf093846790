// Reads the folder of a protocol as one: all its files, in the order in which they name each other.
// Nothing is half read: with one error there is no protocol. Next: read-condition.ts, then src/clinical/interpret.ts.

import type { Condition } from '../clinical/condition.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { FollowUp } from '../on-call/follow-up.ts';
import { type Diagnostic, sortDiagnostics, wholeFile } from './diagnostic.ts';
import { checkNames } from './protocol-names.ts';
import { readAdvice, readRows, readSources } from './read-advice.ts';
import { noBilirubin, readBilirubin } from './read-bilirubin.ts';
import { gatherFamilies, readClassifications, readConditions, readContradictions, readNeeds } from './read-classifications.ts';
import { readContacts, readDoses, readFeeds } from './read-doses.ts';
import { fieldVocabulary, noFields, readFields } from './read-fields.ts';
import { readFindings } from './read-findings.ts';
import { readFollowUp } from './read-follow-up.ts';
import { type ChosenBy, readLimits, readSwitches } from './read-limits.ts';
import { checkRowsHaveRuleOrReason, type RowWithoutRule, readRowsWithoutRule } from './read-rows-without-rule.ts';
import { readSignOff, type SignOffItem } from './read-sign-off.ts';
import { type RowUses, rowUses } from './row-uses.ts';
import type { Vocabulary } from './vocabulary.ts';
import { type Place, type Report, readYaml, type SourceFile } from './yaml-source.ts';

/** The files that every protocol has, beside those under classifications/. */
export const protocolFiles = [
  'advice.yaml',
  'bilirubin.yaml',
  'conditions.yaml',
  'contacts.yaml',
  'contradictions.yaml',
  'doses.yaml',
  'feeds.yaml',
  'fields.yaml',
  'findings.yaml',
  'follow-up.yaml',
  'limits.yaml',
  'needs.yaml',
  'rows.yaml',
  'rows-without-rule.yaml',
  'sign-off.yaml',
  'sources.yaml',
  'switches.yaml',
] as const;

export type ReadProtocol =
  | {
      readonly kind: 'protocol';
      readonly protocol: Protocol;
      readonly vocabulary: Vocabulary;
      readonly followUp: FollowUp;
      readonly review: Review;
      readonly warnings: readonly Diagnostic[];
    }
  | { readonly kind: 'faulty'; readonly diagnostics: readonly Diagnostic[] };

/** What no baby's interpretation needs, but those who answer for the protocol do. */
export interface Review {
  /** Where each row of the reference is carried. */
  readonly uses: RowUses;
  readonly withoutRule: readonly RowWithoutRule[];
  readonly signOff: readonly SignOffItem[];
}

/**
 * The protocol in these files.
 *
 * Takes    files: named relative to the protocol's folder, such as `findings.yaml`, `classifications/20-temperature.yaml`.
 *          folder: what stands before those names in diagnostics.
 *          by: whose choice of the switches holds.
 * Returns  the protocol and the vocabulary that its conditions were read with (a flow reads its guards with the same);
 *          or everything that is wrong, in all files at once.
 */
export function readProtocol(files: readonly SourceFile[], folder = '', by: ChosenBy = 'programme'): ReadProtocol {
  const diagnostics: Diagnostic[] = [];
  const report: Report = (diagnostic) => diagnostics.push({ ...diagnostic, file: folder + diagnostic.file });
  const tops = new Map(files.map((file) => [file.name, readYaml(file, report)]));
  const top = (name: (typeof protocolFiles)[number]): Place | null => {
    const found = tops.get(name);
    if (found === undefined) report(missingFile(name));
    return found ?? null;
  };
  const read = <T>(name: (typeof protocolFiles)[number], reader: (place: Place) => T, otherwise: T): T => {
    const place = top(name);
    return place === null ? otherwise : reader(place);
  };

  const switches = read('switches.yaml', (place) => readSwitches(place, report, by), new Map());
  const limits = read('limits.yaml', (place) => readLimits(place, switches, report), new Map());
  const findings = read('findings.yaml', (place) => readFindings(place, limits, report), []);
  const { measures, lines } = read('fields.yaml', (place) => readFields(place, report), noFields);
  const families = [...tops.keys()]
    .filter((name) => name.startsWith('classifications/'))
    .sort()
    .flatMap((name) => tops.get(name) ?? []);
  const byFamily = gatherFamilies(families, report);
  const conditions = new Map<string, Condition>();
  const vocabulary = {
    findings: new Map(findings.map((finding) => [finding.id, finding])),
    fields: fieldVocabulary(measures),
    conditions,
    limits,
    switches,
    classifications: new Set([...byFamily.values()].flat()),
    families: byFamily,
  };
  read('conditions.yaml', (place) => readConditions(place, vocabulary, report), undefined);
  const protocol: Protocol = {
    findings,
    findingById: vocabulary.findings,
    measures: new Map(measures.map((measure) => [measure.id, measure])),
    conditions,
    limits,
    switches,
    classifications: families.flatMap((place) => readClassifications(place, vocabulary, report)),
    needs: read('needs.yaml', (place) => readNeeds(place, vocabulary, report), []),
    contradictions: read('contradictions.yaml', (place) => readContradictions(place, vocabulary, report), []),
    advice: read('advice.yaml', (place) => readAdvice(place, vocabulary, report), []),
    bilirubin: read('bilirubin.yaml', (place) => readBilirubin(place, vocabulary, report), noBilirubin),
    doses: read('doses.yaml', (place) => readDoses(place, vocabulary, report), []),
    feeds: read('feeds.yaml', (place) => readFeeds(place, vocabulary, report), { switch: '', tables: [] }),
    contacts: read('contacts.yaml', (place) => readContacts(place, vocabulary, report), { switch: '', schedules: [] }),
    lines,
    rows: read('rows.yaml', (place) => readRows(place, report), new Map()),
    sources: read('sources.yaml', (place) => readSources(place, report), new Map()),
  };
  for (const diagnostic of checkNames(protocol, tops)) report(diagnostic);
  const uses = rowUses(tops);
  const withoutRule = read('rows-without-rule.yaml', (place) => readRowsWithoutRule(place, report), []);
  checkRowsHaveRuleOrReason(protocol.rows, tops.get('rows.yaml') ?? null, uses, withoutRule, report);
  const signOff = read('sign-off.yaml', (place) => readSignOff(place, { protocol, tops, uses, without: withoutRule }, report), []);

  const followUp = read('follow-up.yaml', (place) => readFollowUp(place, report), null);

  const sorted = sortDiagnostics(diagnostics);
  if (followUp === null || sorted.some((one) => one.severity === 'error')) return { kind: 'faulty', diagnostics: sorted };
  return { kind: 'protocol', protocol, vocabulary, followUp, review: { uses, withoutRule, signOff }, warnings: sorted };
}

function missingFile(name: string): Diagnostic {
  return {
    code: 'protocol/file-missing',
    severity: 'error',
    file: name,
    range: wholeFile,
    what: `The protocol has no ${name}.`,
    why: 'The protocol cannot be read without it.',
    fix: `Put ${name} back from the last version that worked.`,
    related: [],
  };
}
