// What an edit does to babies: every reference case of both editions is interpreted by both, and those that come out otherwise are
// told by what they became.

import { type Interpretation, outcomes } from '../../clinical/protocol.ts';
import type { ReferenceCase } from '../read-reference-cases.ts';
import { type Change, type ChangeKind, changed, type Edition } from './change.ts';

type Urgency = Interpretation['urgency'];

export function babyChanges(before: Edition, after: Edition): Change[] {
  if (before.interpret === after.interpret) return [];
  const groups = new Map<
    string,
    { readonly kind: ChangeKind; readonly from: Urgency; readonly to: Urgency; readonly cases: ReferenceCase[] }
  >();
  for (const one of casesOf(before, after)) {
    const [was, is] = [before.interpret(one.input), after.interpret(one.input)];
    const kind = kindOf(was, is);
    if (kind === null) continue;
    const name = `${kind} ${was.urgency} ${is.urgency}`;
    const group = groups.get(name) ?? { kind, from: was.urgency, to: is.urgency, cases: [] };
    group.cases.push(one);
    groups.set(name, group);
  }
  return [...groups.values()].map(({ kind, from, to, cases }) => {
    const values = { count: cases.length, from, to, cases: cases.map(({ id }) => id).join(', ') };
    const place = cases[0]?.place;
    return changed(kind, values, { file: place?.file ?? '', line: place?.range.start.line ?? 1 });
  });
}

/** As they are now written; and those that were taken out. */
function casesOf(before: Edition, after: Edition): ReferenceCase[] {
  const ids = new Set(after.cases.map(({ id }) => id));
  return [...after.cases, ...before.cases.filter(({ id }) => !ids.has(id))];
}

function kindOf(was: Interpretation, is: Interpretation): ChangeKind | null {
  const rise = outcomes.indexOf(was.urgency) - outcomes.indexOf(is.urgency);
  if (rise !== 0) return rise > 0 ? 'babies-more-urgent' : 'babies-less-urgent';
  return told(was) === told(is) ? null : 'babies-told-otherwise';
}

/** What the worker hears: what it is, by when, what to do. */
function told({ classifications, missing, advice }: Interpretation): string {
  const said = classifications.map(({ id, urgency, recheck, within }) => [id, urgency, recheck, within]);
  return JSON.stringify([said, missing, advice]);
}
