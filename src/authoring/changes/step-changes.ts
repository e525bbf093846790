// What differs in a step that both editions have: its kind, its guard, what its answers mean, and its settings.

import type { ReadStep, Step } from '../../dialog/flow.ts';
import { orderChanges, type PlacedFlow, spotOfStep } from './asked-changes.ts';
import { type Change, changed, removed } from './change.ts';
import { conditionIn, spotOf, textOf } from './entry.ts';
import { pairsOf } from './pairs.ts';
import { settingChanges } from './setting-changes.ts';

/** Said in words of their own, here and in asked-changes.ts. */
const saidElsewhere = ['step', 'only-if', 'read', 'mark', 'more'];

export function stepChanges(was: Step, is: Step, before: PlacedFlow, after: PlacedFlow): Change[] {
  const { id: flow } = after.flow;
  const spot = spotOfStep(after, is.id);
  const step = is.id;
  const kind = was.kind === is.kind ? [] : [changed('step-kind-changed', { flow, step, from: was.kind, to: is.kind }, spot)];
  // Steps that it opens are asked again with it.
  const again = was.seal === is.seal || was.seal === '' || is.opened ? [] : [changed('asked-again', { flow, step }, spot)];
  const asked = was.kind === 'read' && is.kind === 'read' ? needChanges(was, is, after) : markChanges(was, is, after);
  return [
    ...kind,
    ...guardChanges(is.id, before, after),
    ...again,
    ...orderChanges(was, is, after),
    ...asked,
    ...settings(is.id, before, after),
  ];
}

function guardChanges(step: string, before: PlacedFlow, after: PlacedFlow): Change[] {
  const { id: flow } = after.flow;
  const [was, is] = [before.places.get(step)?.fields.get('only-if'), after.places.get(step)?.fields.get('only-if')];
  const [from, to] = [conditionIn(was), conditionIn(is)];
  if (from === to) return [];
  if (is === undefined) return [removed('guard-removed', { flow, step, from }, was ? spotOf(was) : spotOfStep(before, step))];
  return [
    was === undefined
      ? changed('guard-added', { flow, step, to }, spotOf(is))
      : changed('guard-changed', { flow, step, from, to }, spotOf(is)),
  ];
}

function needChanges(was: ReadStep, is: ReadStep, after: PlacedFlow): Change[] {
  const { id: flow } = after.flow;
  return is.fields.flatMap(({ of, optional }) => {
    const other = was.fields.find((field) => field.of === of);
    if (other === undefined || other.optional === optional) return [];
    return changed(optional ? 'field-now-optional' : 'field-now-needed', { flow, step: is.id, field: of }, spotOfStep(after, is.id));
  });
}

/** A mark that opens another step than before, or leaves other values when it is not made. */
function markChanges(was: Step, is: Step, after: PlacedFlow): Change[] {
  if (was.kind !== 'mark' || is.kind !== 'mark') return [];
  const { file, line } = spotOfStep(after, is.id);
  return is.marks.flatMap((mark) => {
    const other = was.marks.find(({ id }) => id === mark.id);
    const isSame = other === undefined || (other.opens === mark.opens && sameValues(other.otherwise, mark.otherwise));
    const at = after.places.get(is.id)?.marks.get(mark.id) ?? line;
    return isSame ? [] : changed('mark-changed', { flow: after.flow.id, step: is.id, mark: mark.id }, { file, line: at });
  });
}

function sameValues(one: Readonly<Record<string, unknown>>, other: Readonly<Record<string, unknown>>): boolean {
  const text = (values: Readonly<Record<string, unknown>>): string => JSON.stringify(Object.entries(values).sort());
  return text(one) === text(other);
}

function settings(step: string, before: PlacedFlow, after: PlacedFlow): Change[] {
  const own = ({ places }: PlacedFlow) => [...(places.get(step)?.fields.values() ?? [])].filter(({ key }) => !saidElsewhere.includes(key));
  return pairsOf(own(before), own(after), ({ key }) => key).flatMap((pair): Change[] => {
    const setting = (pair.after ?? pair.before).key;
    if (pair.before === undefined) return [changed('setting-added', { entry: step, setting, to: textOf(pair.after) }, spotOf(pair.after))];
    if (pair.after === undefined)
      return [removed('setting-removed', { entry: step, setting, from: textOf(pair.before) }, spotOf(pair.before))];
    return settingChanges(step, pair.before, pair.after, [], setting);
  });
}
