// Binds what was read and proved to what the conversation looks things up in. Next: prove.ts, which reads and proves it.

import { createHash } from 'node:crypto';
import { conditionsOf } from '../authoring/checks/possible-values.ts';
import type { SourceFile } from '../authoring/yaml-source.ts';
import type { Condition } from '../clinical/condition.ts';
import { parts } from '../clinical/condition-parts.ts';
import { contradictionsIn } from '../clinical/contradictions.ts';
import type { DrawnBaby, GrowthCurves } from '../clinical/growth-curves.ts';
import { interpret } from '../clinical/interpret.ts';
import { listedAdvice } from '../clinical/listed-advice.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { Published } from '../conversation/book.ts';
import { type Flow, guardConditions } from '../dialog/flow.ts';
import { type Catalogues, withoutDrafts } from '../messages/catalogue.ts';
import type { FollowUp } from '../on-call/follow-up.ts';

/** The flow that each beginning starts. */
const flowFor = { 'new-baby': 'first-day-exam', contact: 'postnatal-contact', recheck: 'recheck' } as const;

/** What the files say, read. */
export interface Edition {
  readonly flows: readonly Flow[];
  readonly protocol: Protocol;
  readonly followUp: FollowUp;
  readonly catalogues: Catalogues;
  /** Lines of the growth standards for one baby's weight (growth-curves.ts). */
  readonly curves: (baby: DrawnBaby, untilDays: number) => GrowthCurves | null;
}

/** Takes  drafts: whether translations that no clinician has reviewed are served. */
export function bindPublished({ flows, protocol, followUp, catalogues }: Edition, version: string, drafts: boolean): Published {
  const rules = new Map(protocol.classifications.map((rule) => [rule.id, rule]));
  const askedAgain = askedAgainIn(flows, protocol);
  return {
    version,
    flows,
    flowFor,
    findings: protocol.findingById,
    ranges: { gestation: measure(protocol, 'gestation'), weight: measure(protocol, 'weight'), 'age-days': ageInDays(protocol) },
    interpret: (aCase) => interpret(protocol, aCase),
    contradicted: (aCase) => contradictionsIn(protocol, aCase).map(({ at }) => at),
    adviceOf: (id, urgency) => {
      const rule = rules.get(id);
      return rule === undefined ? [] : listedAdvice(protocol, rule, urgency).flatMap((place) => protocol.advice[place]?.key ?? []);
    },
    isAskedAgain: (id) => askedAgain.has(id),
    isBox: (id) => rules.get(id)?.box ?? false,
    isForAuthorised: (key) => protocol.advice.some((advice) => advice.key === key && advice.authorised),
    doseBasis: (drug, row) =>
      protocol.doses
        .filter((dose) => dose.drug === drug)
        .flatMap((dose) => dose.amounts)
        .find((amount) => amount.row === row),
    sourcesOf: (rowIds) => sourceCodes(protocol, rowIds),
    followUp,
    catalogues: drafts ? catalogues : withoutDrafts(catalogues),
  };
}

/** Classifications of which some rule or guard asks whether an earlier look gave them. */
function askedAgainIn(flows: readonly Flow[], protocol: Protocol): ReadonlySet<string> {
  const asked = (one: Condition): string[] => (one.kind === 'given-before' ? [one.classification] : parts(one).flatMap(asked));
  return new Set([...conditionsOf(protocol), ...flows.flatMap(guardConditions)].flatMap(asked));
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
export function versionOf(sources: readonly SourceFile[]): string {
  const hash = createHash('sha256');
  for (const { name, text } of sources) hash.update(`${name}\0${text}\0`);
  return hash.digest('hex').slice(0, 16);
}
