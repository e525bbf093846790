// The seal of a step: a short hash of what an answer to it means. An edit of wording or order leaves it; a sign added to a
// region changes it, so that a region answered before the edit is asked again instead of counting the new sign as not seen.

import type { MarkStep, Step } from '../dialog/flow.ts';

export function sealOf(step: Step, steps: ReadonlyMap<string, Step>): string {
  return step.kind === 'mark' ? hash(JSON.stringify(meaningOf(step, steps, new Set()))) : '';
}

/** All that an answer of 0 would call normal: the region's marks and what they and digit 9 could have opened. */
function meaningOf(step: MarkStep, steps: ReadonlyMap<string, Step>, seen: Set<string>): unknown {
  seen.add(step.id);
  const marks = step.marks.map((mark) => [mark.id, mark.otherwise, mark.then === undefined ? null : below(mark.then, steps, seen)]);
  const more = step.more === undefined ? null : below(step.more, steps, seen);
  return [[...marks].sort((a, b) => String(a[0]).localeCompare(String(b[0]))), more, step.leavesOpen];
}

function below(id: string, steps: ReadonlyMap<string, Step>, seen: Set<string>): unknown {
  const step = steps.get(id);
  if (step === undefined || seen.has(id)) return id;
  if (step.kind === 'mark') return meaningOf(step, steps, seen);
  return step.kind === 'read' ? step.fields.map((field) => [field.of, field.options]) : id;
}

/** FNV-1a, 32 bits, in base 36: not a secret, only a name for a meaning. */
function hash(text: string): string {
  let value = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) value = Math.imul(value ^ text.charCodeAt(at), 0x01000193) >>> 0;
  return value.toString(36);
}
