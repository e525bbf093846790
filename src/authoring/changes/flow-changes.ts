// What is asked otherwise: flows and steps added, taken out and moved. What differs within a step: step-changes.ts, asked-changes.ts.

import { stepPlaces } from '../flow-places.ts';
import { readYaml } from '../yaml-source.ts';
import { askedChanges, moveChange, type PlacedFlow, spotOfStep } from './asked-changes.ts';
import { type Change, changed, type Edition, removed } from './change.ts';
import { fieldIn, textOf } from './entry.ts';
import { movedIn } from './moved.ts';
import { pairsOf } from './pairs.ts';
import { settingChanges } from './setting-changes.ts';
import { stepChanges } from './step-changes.ts';

export function flowChanges(before: Edition, after: Edition): Change[] {
  return pairsOf(placedFlows(before), placedFlows(after), ({ flow }) => flow.id).flatMap((pair): Change[] => {
    if (pair.after === undefined) return [removed('flow-removed', { flow: pair.before.flow.id }, { file: pair.before.file, line: 1 })];
    if (pair.before === undefined) return [changed('flow-added', { flow: pair.after.flow.id }, { file: pair.after.file, line: 1 })];
    return withinFlow(pair.before, pair.after);
  });
}

function withinFlow(before: PlacedFlow, after: PlacedFlow): Change[] {
  const { id: flow } = after.flow;
  const steps = pairsOf(before.flow.steps, after.flow.steps, ({ id }) => id).flatMap((pair): Change[] => {
    if (pair.after === undefined) return [removed('step-removed', { flow, step: pair.before.id }, spotOfStep(before, pair.before.id))];
    if (pair.before === undefined) return [changed('step-added', { flow, step: pair.after.id }, spotOfStep(after, pair.after.id))];
    return stepChanges(pair.before, pair.after, before, after);
  });
  const moves = movedIn(ownSteps(before), ownSteps(after)).map((move) => moveChange('step', move, { flow }, spotOfStep(after, move.id)));
  const settings = settingChanges(flow, before.top, after.top, ['flow', 'steps']);
  return [...steps, ...moves, ...askedChanges(before, after), ...settings];
}

/** Without the rests of regions, which stand where their region stands. */
function ownSteps({ flow: { steps } }: PlacedFlow): string[] {
  const rests = new Set(steps.flatMap((step) => (step.kind === 'mark' ? (step.more ?? []) : [])));
  return steps.map(({ id }) => id).filter((id) => !rests.has(id));
}

/** Each flow with the file that names it. */
function placedFlows({ flows, sources }: Edition): PlacedFlow[] {
  const files = sources.filter(({ name }) => /^flows\/[^/]+\.yaml$/.test(name));
  return files.flatMap((source): PlacedFlow[] => {
    const top = readYaml(source, () => {});
    const flow = top === null ? undefined : flows.find(({ id }) => id === textOf(fieldIn(top, 'flow')));
    return top === null || flow === undefined ? [] : [{ flow, file: source.name, top, places: stepPlaces(source) }];
  });
}
