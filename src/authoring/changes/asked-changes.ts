// What is asked otherwise within steps: signs and values added, taken out, moved to another step or to another place in theirs.
// Signs and values are told alike, each by its own kinds. Next: flow-changes.ts, step-changes.ts.

import type { Flow, Step } from '../../dialog/flow.ts';
import type { StepPlace } from '../flow-places.ts';
import type { Place } from '../yaml-source.ts';
import { type Change, changed, removed, type Spot } from './change.ts';
import { movedIn } from './moved.ts';

/** A flow with its file: what is asked stands at a line of it. */
export interface PlacedFlow {
  readonly flow: Flow;
  readonly file: string;
  readonly top: Place;
  readonly places: ReadonlyMap<string, StepPlace>;
}

interface Asked extends Spot {
  readonly step: string;
  readonly id: string;
}

export function spotOfStep({ file, places }: PlacedFlow, step: string): Spot {
  return { file, line: places.get(step)?.line ?? 1 };
}

function marksIn(placed: PlacedFlow): Asked[] {
  return placed.flow.steps.flatMap((step) => {
    if (step.kind !== 'mark') return [];
    const { file, line } = spotOfStep(placed, step.id);
    return step.marks.map(({ id }) => ({ step: step.id, id, file, line: placed.places.get(step.id)?.marks.get(id) ?? line }));
  });
}

function fieldsAsked(placed: PlacedFlow): Asked[] {
  return placed.flow.steps.flatMap((step) => {
    const { file, line } = spotOfStep(placed, step.id);
    const at = placed.places.get(step.id)?.fields.get('read')?.range.start.line ?? line;
    return step.kind === 'read' ? step.fields.map(({ of }) => ({ step: step.id, id: of, file, line: at })) : [];
  });
}

export function askedChanges(before: PlacedFlow, after: PlacedFlow): Change[] {
  return [
    ...movesOf('mark', marksIn(before), marksIn(after), before, after),
    ...movesOf('field', fieldsAsked(before), fieldsAsked(after), before, after),
  ];
}

/** A step that is new, or gone, is said as a whole; only what it shares with another step is said besides. */
function movesOf(what: 'mark' | 'field', was: readonly Asked[], is: readonly Asked[], before: PlacedFlow, after: PlacedFlow): Change[] {
  const { id: flow } = after.flow;
  const has = (list: readonly Asked[], one: Asked): boolean => list.some(({ step, id }) => step === one.step && id === one.id);
  const hasStep = ({ flow: { steps } }: PlacedFlow, id: string): boolean => steps.some((step: Step) => step.id === id);
  const gone = was.filter((one) => !has(is, one));
  const fresh = is.filter((one) => !has(was, one));
  const origin = (one: Asked): Asked | undefined => gone.find(({ id }) => id === one.id);
  return [
    ...gone
      .filter((one) => hasStep(after, one.step) && !fresh.some(({ id }) => id === one.id))
      .map((one) => removed(`${what}-removed`, { flow, step: one.step, [what]: one.id }, one)),
    ...fresh.flatMap((one): Change[] => {
      const from = origin(one)?.step;
      if (from !== undefined) return [changed(`${what}-moved`, { flow, [what]: one.id, from, to: one.step }, one)];
      return hasStep(before, one.step) ? [changed(`${what}-added`, { flow, step: one.step, [what]: one.id }, one)] : [];
    }),
  ];
}

/** What one step asks in another order. */
export function orderChanges(was: Step, is: Step, after: PlacedFlow): Change[] {
  const { id: flow } = after.flow;
  if (was.kind === 'mark' && is.kind === 'mark') {
    const moved = movedIn(idsOf(was.marks), idsOf(is.marks));
    return moved.length === 0 ? [] : [changed('marks-reordered', { flow, step: is.id }, spotOfStep(after, is.id))];
  }
  if (was.kind !== 'read' || is.kind !== 'read') return [];
  const moves = movedIn(
    was.fields.map(({ of }) => of),
    is.fields.map(({ of }) => of),
  );
  return moves.map((move) => moveChange('field', move, { flow, step: is.id }, spotOfStep(after, is.id)));
}

const idsOf = (list: readonly { readonly id: string }[]): string[] => list.map(({ id }) => id);

/** Before the neighbour that it now stands before; after the one before it where it stands last. */
export function moveChange(
  what: 'step' | 'field',
  { id, before, after }: ReturnType<typeof movedIn>[number],
  values: Change['values'],
  spot: Spot,
): Change {
  return before === null
    ? changed(`${what}-moved-after`, { ...values, [what]: id, other: after ?? '' }, spot)
    : changed(`${what}-moved-before`, { ...values, [what]: id, other: before }, spot);
}
