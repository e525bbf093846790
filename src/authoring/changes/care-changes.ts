// What is given and when a baby is seen again otherwise: doses, and the contacts of each schedule.

import type { Place } from '../yaml-source.ts';
import { type Change, changed, removed } from './change.ts';
import { conditionIn, differenceOf, type Entry, fieldIn, itemsIn, nameOf, spotOf, textOf } from './entry.ts';
import { movedIn } from './moved.ts';
import { differingItems, pairsOf } from './pairs.ts';
import { settingChanges } from './setting-changes.ts';

export function doseChanges({ id: drug, place: before }: Entry, { place: after }: Entry): Change[] {
  const amounts = differingItems(itemsIn(before, 'amounts'), itemsIn(after, 'amounts')).map((pair) => {
    if (pair.after === undefined) return removed('dose-amount-removed', { drug, dose: doseIn(pair.before) }, spotOf(pair.before));
    if (pair.before === undefined) return changed('dose-amount-added', { drug, dose: doseIn(pair.after) }, spotOf(pair.after));
    return changed('dose-changed', { drug, dose: doseIn(pair.after), ...differenceOf(pair.before, pair.after) }, spotOf(pair.after));
  });
  // The first that holds is the dose.
  const moved = movedIn(itemsIn(before, 'amounts').map(textOf), itemsIn(after, 'amounts').map(textOf));
  const order = moved.length === 0 ? [] : [changed('order-changed', { entry: drug }, spotOf(after))];
  return [...amounts, ...order, ...settingChanges(drug, before, after, ['amounts'])];
}

export function contactChanges({ id: schedule, place: before }: Entry, { place: after }: Entry): Change[] {
  const contacts = pairsOf(itemsIn(before, 'contacts'), itemsIn(after, 'contacts'), nameOf).flatMap((pair): Change[] => {
    if (pair.after === undefined) return [removed('contact-removed', { schedule, contact: nameOf(pair.before) }, spotOf(pair.before))];
    const contact = nameOf(pair.after);
    if (pair.before === undefined) return [changed('contact-added', { schedule, contact }, spotOf(pair.after))];
    if (textOf(pair.before) === textOf(pair.after)) return [];
    return [changed('contact-changed', { schedule, contact, ...differenceOf(pair.before, pair.after) }, spotOf(pair.after))];
  });
  return [...contacts, ...settingChanges(schedule, before, after, ['contacts'])];
}

/** How much, and for which babies. */
function doseIn(amount: Place): string {
  const much = ['amount', 'per-kg'].flatMap((name) => {
    const field = fieldIn(amount, name);
    return field === undefined ? [] : `${name} ${textOf(field)}`;
  });
  return [...much, conditionIn(fieldIn(amount, 'when'))].join(', ');
}
