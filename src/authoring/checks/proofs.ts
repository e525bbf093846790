// What is shown of every baby, not of examples: rules and guards that can hold, signs that lead somewhere and never lower the urgency,
// classifications that do not contradict, questions that are asked of whom they must be. One search for all of them: can-hold.ts.

import type { Protocol } from '../../clinical/protocol.ts';
import type { Flow } from '../../dialog/flow.ts';
import { flowVocabulary } from '../read-flow.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import type { Vocabulary } from '../vocabulary.ts';
import type { Report, SourceFile } from '../yaml-source.ts';
import { asCondition, checkAskedWhen } from './asked-when.ts';
import { Search } from './can-hold.ts';
import { checkContradictions } from './contradicting-rules.ts';
import { checkBandsAreMet } from './empty-bands.ts';
import { checkOrder } from './flow-order.ts';
import { checkAskedSomewhere, checkLeadsSomewhere } from './leads-nowhere.ts';
import { checkGuardsCanHold, checkRulesCanHold } from './never-holds.ts';
import { checkPathsAsk } from './path-asks.ts';
import { conditionsOf, possibleValues } from './possible-values.ts';
import { checkRulesHaveRows } from './rule-rows.ts';
import { checkSignsNeverLower } from './sign-lowers-urgency.ts';

export interface Proved {
  readonly flows: readonly Flow[];
  readonly protocol: Protocol;
  readonly vocabulary: Vocabulary;
  readonly cases: readonly ReferenceCase[];
  readonly flowSources: readonly SourceFile[];
  readonly protocolSources: readonly SourceFile[];
  /** flows/reference/questions.yaml. */
  readonly questions: SourceFile;
}

export function checkProofs({ flows, protocol, vocabulary, cases, flowSources, protocolSources, questions }: Proved, report: Report): void {
  const guards = flows.flatMap(({ steps }) => steps.flatMap(({ onlyIf }) => onlyIf.map(asCondition)));
  const possible = possibleValues(flowVocabulary(vocabulary), [...conditionsOf(protocol), ...guards]);
  const search = new Search(protocol, possible);
  checkRulesCanHold(protocol, search, protocolSources, report);
  checkRulesHaveRows(protocol, protocolSources, report);
  checkBandsAreMet(protocol, protocolSources, report);
  for (const flow of flows) checkOrder(flow, flowSources, report);
  for (const flow of flows) checkGuardsCanHold(flow, protocol, possible, flowSources, report);
  const signedOff = checkAskedWhen(questions, flows, vocabulary, search, report);
  checkLeadsSomewhere(flows, protocol, signedOff.decideNothing, flowSources, report);
  checkAskedSomewhere(flows, protocol, signedOff.inNoFlow, protocolSources, report);
  checkPathsAsk(cases, flows, protocol, signedOff.guarded, flowSources, report);
  checkContradictions(protocol, protocolSources, report);
  checkSignsNeverLower(protocol, search, protocolSources, report);
}
