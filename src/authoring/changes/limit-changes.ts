// Lines that moved: limits, what a switch moves them to, the bands of findings and fields, and what a switch is set to by default.

import type { Place } from '../yaml-source.ts';
import { type Change, changed, removed } from './change.ts';
import { type Entry, fieldIn, fieldsIn, itemsIn, nameOf, spotOf, textOf } from './entry.ts';
import { movedIn } from './moved.ts';
import { pairsOf } from './pairs.ts';
import { settingChanges } from './setting-changes.ts';

const lineWords = ['from', 'over', 'never', 'limit'];

/** `from 38.0`, `over 18`. */
function lineIn(place: Place): string {
  return fieldsIn(place)
    .filter(({ key }) => lineWords.includes(key))
    .map((field) => `${field.key} ${textOf(field)}`)
    .join(', ');
}

export function limitChanges({ id: limit, place: before }: Entry, { place: after }: Entry): Change[] {
  const [from, to] = [lineIn(before), lineIn(after)];
  const moved = pairsOf(itemsIn(before, 'moved'), itemsIn(after, 'moved'), choiceIn).flatMap((pair): Change[] => {
    const { before: was, after: is } = pair;
    if (is === undefined) return [removed('setting-removed', { entry: limit, setting: choiceIn(was), from: lineIn(was) }, spotOf(was))];
    if (was === undefined) return [changed('setting-added', { entry: limit, setting: choiceIn(is), to: lineIn(is) }, spotOf(is))];
    if (lineIn(was) === lineIn(is)) return [];
    return [changed('limit-option-moved', { limit, option: choiceIn(is), from: lineIn(was), to: lineIn(is) }, spotOf(is))];
  });
  const own = from === to ? [] : [changed('limit-moved', { limit, from, to }, spotOf(after))];
  // The first switch that is set moves the line.
  const reordered = movedIn(itemsIn(before, 'moved').map(choiceIn), itemsIn(after, 'moved').map(choiceIn));
  return [...own, ...moved, ...(reordered.length === 0 ? [] : [changed('order-changed', { entry: limit }, spotOf(after))])];
}

/** The switch and the option under which a limit lies elsewhere. */
function choiceIn(move: Place): string {
  const choice = fieldsIn(move).find(({ key }) => !lineWords.includes(key));
  return choice === undefined ? '' : `${choice.key}: ${textOf(choice)}`;
}

export function findingChanges({ id: finding, place: before }: Entry, { place: after }: Entry): Change[] {
  const bandName = (band: Place): string => textOf(fieldIn(band, 'id'));
  const bands = pairsOf(itemsIn(before, 'bands'), itemsIn(after, 'bands'), bandName).flatMap((pair): Change[] => {
    const { before: was, after: is } = pair;
    if (is === undefined) return [removed('band-removed', { finding, band: bandName(was), from: lineIn(was) }, spotOf(was))];
    if (was === undefined) return [changed('band-added', { finding, band: bandName(is), to: lineIn(is) }, spotOf(is))];
    const [from, to] = [lineIn(was), lineIn(is)];
    const moved = from === to ? [] : [changed('band-moved', { finding, band: bandName(is), from, to }, spotOf(is))];
    return [...moved, ...settingChanges(`${finding} ${bandName(is)}`, was, is, lineWords)];
  });
  return [...bands, ...settingChanges(finding, before, after, ['bands'])];
}

export function switchChanges({ id, place: before }: Entry, { place: after }: Entry): Change[] {
  const [was, is] = [itemsIn(before, 'options'), itemsIn(after, 'options')];
  const [from, to] = [textOf(fieldIn(before, 'chosen') ?? was[0]), textOf(fieldIn(after, 'chosen') ?? is[0])];
  const options = pairsOf(was, is, nameOf).flatMap((pair): Change[] => {
    if (pair.after === undefined)
      return [removed('switch-option-removed', { switch: id, option: nameOf(pair.before) }, spotOf(pair.before))];
    return pair.before === undefined
      ? [changed('switch-option-added', { switch: id, option: nameOf(pair.after) }, spotOf(pair.after))]
      : [];
  });
  const byDefault = from === to ? [] : [changed('switch-default-changed', { switch: id, from, to }, spotOf(after))];
  return [...byDefault, ...options, ...settingChanges(id, before, after, ['options', 'chosen'])];
}
