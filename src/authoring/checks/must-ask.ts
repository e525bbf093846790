// What each flow must ask: findings, and of a finding with options which of them can be given. Written down beside the reference
// cases because those begin with what was found: a question that is dropped changes no case, and no baby with that sign is found
// any more. Next: safety-floor.ts.

import type { Flow, Step } from '../../dialog/flow.ts';
import {
  complain,
  entriesOf,
  isMapping,
  itemsOf,
  type Place,
  type Report,
  readYaml,
  type SourceFile,
  textOf,
  textsOf,
} from '../yaml-source.ts';

const why = 'A baby with this finding would be called well by whoever goes through the questions.';
const fix = 'Ask for it again; or have the newborn lead sign off that it is not asked, and take its line out here.';

/** Errors of that file's form, and one for each finding or option that its flow does not ask any more. */
export function checkMustAsk(source: SourceFile, flows: readonly Flow[], report: Report): void {
  const top = readYaml(source, report);
  if (top === null) return;
  const entries = entriesOf(top, report);
  for (const flow of flows) if (!entries.some(({ key }) => key === flow.id)) report(notListed(top, flow.id));
  for (const entry of entries) {
    const flow = flows.find(({ id }) => id === entry.key);
    if (flow === undefined) {
      const what = `There is no flow "${entry.key}".`;
      report(complain(entry, entry.keyRange, 'must-ask/unknown-flow', what, why, 'Give the flow its name back, or take this list out.'));
      continue;
    }
    const asked = askedIn(flow);
    for (const item of itemsOf(entry))
      for (const [of, option] of wantedIn(item, report)) checkOne(item, flow.id, of, option, asked, report);
  }
}

function checkOne(item: Place, flow: string, of: string, option: string | null, asked: ReadonlySet<string>, report: Report): void {
  if (asked.has(nameOf(of, option)) || (option !== null && asked.has(of))) return;
  const what = `"${flow}" does not ask for "${nameOf(of, option)}".`;
  report(complain(item, item.range, 'must-ask/not-asked', what, why, fix));
}

function notListed(top: Place, flow: string): ReturnType<typeof complain> {
  const remedy = `Add "${flow}:" with a list of what it must ask, or take this file over from the shipped flows.`;
  const unguarded = 'A question of it could be dropped, and no check would say so.';
  return complain(top, top.range, 'must-ask/flow-missing', `Nothing says what "${flow}" must ask.`, unguarded, remedy);
}

/** `finding`, `finding: option` or `finding: [option, option]`. */
function wantedIn(item: Place, report: Report): [of: string, option: string | null][] {
  if (!isMapping(item)) {
    const of = textOf(item, report);
    return of === null ? [] : [[of, null]];
  }
  return entriesOf(item, report).flatMap((entry) => textsOf(entry, report).map((option): [string, string] => [entry.key, option]));
}

/** Names of all that a worker can say in this flow; an option stands beside its finding. */
export function askedIn(flow: Flow): ReadonlySet<string> {
  return new Set(flow.steps.flatMap(askedAt));
}

function askedAt(step: Step): string[] {
  switch (step.kind) {
    case 'result':
      return [];
    case 'again':
      return [step.of];
    case 'read':
      return step.fields.flatMap(({ of, options }) => (options.length === 0 ? [of] : options.map((option) => nameOf(of, option))));
    case 'mark':
      return step.marks.flatMap(({ sets }) => {
        if (sets === null) return [];
        return [typeof sets.value === 'string' ? nameOf(sets.of, sets.value) : sets.of];
      });
  }
}

function nameOf(of: string, option: string | null): string {
  return option === null ? of : `${of}: ${option}`;
}
