// The seal of a step: a short hash of what an answer to it means. An edit of wording or order leaves it; a sign added to a
// region changes it, so that a region answered before the edit is asked again instead of counting the new sign as not seen.

import type { MarkStep, Step } from '../dialog/flow.ts';
import { shortHash } from '../dialog/short-hash.ts';

export function sealOf(step: Step, steps: ReadonlyMap<string, Step>): string {
  return step.kind === 'mark' ? shortHash(JSON.stringify(meaningOf(step, steps, []))) : '';
}

/** All that an answer of 0 would call normal: the region's marks and what they and digit 9 could have opened. */
function meaningOf(step: MarkStep, steps: ReadonlyMap<string, Step>, above: readonly string[]): unknown {
  const path = [...above, step.id];
  const marks = step.marks.map((mark) => [
    mark.id,
    sorted(Object.entries(mark.otherwise)),
    mark.opens === undefined ? null : below(mark.opens, steps, path),
  ]);
  const more = step.more === undefined ? null : below(step.more, steps, path);
  return [sorted(marks), more, sorted(step.leavesOpen)];
}

function below(id: string, steps: ReadonlyMap<string, Step>, path: readonly string[]): unknown {
  const step = steps.get(id);
  if (step === undefined || path.includes(id)) return id;
  if (step.kind === 'mark') return meaningOf(step, steps, path);
  return step.kind === 'read' ? sorted(step.fields.map((field) => [field.of, sorted(field.options)])) : id;
}

/** By code unit, so that a seal is the same on every machine. */
function sorted<T>(list: readonly T[]): T[] {
  const key = (one: T): string => JSON.stringify(one);
  return [...list].sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}
