// What an answered region says of everything in it that was not marked, and of the steps that it could have opened: a sign
// that was looked for and not seen is false, a choice is its first option. Prepared once a flow. Next: gather.ts, which adds it up.

import { type Placed, placesOf } from '../clinical/findings-at-hand.ts';
import { normalValue } from '../clinical/normal-value.ts';
import type { Finding, FindingValue } from '../clinical/protocol.ts';
import type { Flow, MarkStep, Step } from './flow.ts';

type Findings = ReadonlyMap<string, Finding>;
type Says = readonly Placed[];
type Entries = readonly (readonly [of: string, value: FindingValue])[];

/** The values that hold when the mark, or the digit that opens the rest of the region, is not sent. */
export interface Unmarked {
  readonly mark: string;
  readonly says: Says;
}

export interface UnmarkedRegion {
  readonly each: readonly Unmarked[];
  /** The values that hold when nothing is marked, as in most regions of most babies, each finding once. */
  readonly all: Says;
}

export interface PreparedFlow {
  readonly steps: ReadonlyMap<string, Step>;
  /** By mark step. */
  readonly unmarked: ReadonlyMap<Step, UnmarkedRegion>;
}

/** A function of flow and findings alone, kept as long as both are. */
const prepared = new WeakMap<Flow, WeakMap<Findings, PreparedFlow>>();

export function prepareFlow(flow: Flow, findings: Findings): PreparedFlow {
  const kept = prepared.get(flow) ?? new WeakMap<Findings, PreparedFlow>();
  prepared.set(flow, kept);
  const known = kept.get(findings);
  if (known !== undefined) return known;
  const steps = new Map(flow.steps.map((step) => [step.id, step]));
  const marking = flow.steps.filter((step) => step.kind === 'mark');
  const made = { steps, unmarked: new Map(marking.map((step) => [step, regionOf(unmarkedIn(step, steps, findings, new Set()))])) };
  kept.set(findings, made);
  return made;
}

function regionOf(each: readonly Unmarked[]): UnmarkedRegion {
  const all = new Map<string, Placed>();
  for (const { says } of each) for (const one of says) if (!all.has(one.of)) all.set(one.of, one);
  return { each, all: [...all.values()] };
}

/** Takes    within: the steps that opened this one, so that steps that open one another come to an end. */
function unmarkedIn(step: MarkStep, steps: ReadonlyMap<string, Step>, findings: Findings, within: ReadonlySet<Step>): Unmarked[] {
  if (within.has(step)) return [];
  const places = placesOf(findings);
  const placed = (entries: Entries): Says => entries.map(([of, value]) => ({ of, place: places.get(of), value }));
  const unopened = (id: string | undefined): Says => {
    const other = id === undefined ? undefined : steps.get(id);
    if (other?.kind === 'read') return placed(other.fields.flatMap(({ of }) => normalOf(of, findings)));
    return other?.kind === 'mark' ? unmarkedIn(other, steps, findings, new Set([...within, step])).flatMap(({ says }) => says) : [];
  };
  const marks = step.marks.map(({ id, sets, opens, otherwise }) => {
    const normal = sets !== null && !step.leavesOpen.includes(sets.of) ? normalOf(sets.of, findings) : [];
    return { mark: id, says: [...placed([...Object.entries(otherwise), ...normal]), ...unopened(opens)] };
  });
  return step.more === undefined ? marks : [...marks, { mark: step.more, says: unopened(step.more) }];
}

/** A number has no normal value of its own. */
function normalOf(of: string, findings: Findings): Entries {
  const normal = normalValue(findings.get(of));
  return normal === undefined ? [] : [[of, normal]];
}
