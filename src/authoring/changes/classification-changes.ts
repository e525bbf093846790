// What is made of a baby otherwise: rules of a classification taken out, added, more or less urgent, by another time; its advice.

import { type Urgency, urgencies } from '../../clinical/protocol.ts';
import type { Place } from '../yaml-source.ts';
import { type Change, changed, removed } from './change.ts';
import { conditionIn, type Entry, fieldIn, fieldsIn, itemsIn, nameOf, spotOf, textOf } from './entry.ts';
import { differingItems, pairsOf } from './pairs.ts';
import { settingChanges } from './setting-changes.ts';

export function classificationChanges(was: Entry, is: Entry): Change[] {
  const { id: classification, place: before } = was;
  const { place: after } = is;
  const rules = ['rules', 'raised'].flatMap((list) =>
    differingItems(itemsIn(before, list), itemsIn(after, list)).flatMap((pair) => {
      if (pair.after === undefined) return removed('rule-removed', { classification, rule: ruleText(pair.before) }, spotOf(pair.before));
      if (pair.before === undefined) return changed('rule-added', { classification, rule: ruleText(pair.after) }, spotOf(pair.after));
      return ruleChanges(classification, pair.before, pair.after);
    }),
  );
  const advice = pairsOf(itemsIn(before, 'advice'), itemsIn(after, 'advice'), nameOf).flatMap((pair): Change[] => {
    if (pair.after === undefined)
      return [removed('advice-removed', { classification, advice: adviceName(pair.before) }, spotOf(pair.before))];
    return pair.before === undefined
      ? [changed('advice-added', { classification, advice: adviceName(pair.after) }, spotOf(pair.after))]
      : [];
  });
  const family =
    was.section === is.section
      ? []
      : [changed('setting-changed', { entry: classification, setting: 'family', from: was.section, to: is.section }, is)];
  return [...rules, ...advice, ...family, ...settingChanges(classification, before, after, ['rules', 'raised', 'advice'])];
}

const adviceName = (advice: Place): string => nameOf(advice).replace(/^advice\./, '');

function urgencyIn(rule: Place): { readonly urgency: Urgency; readonly when: string } | null {
  const field = fieldsIn(rule).find(({ key }) => (urgencies as readonly string[]).includes(key));
  return field === undefined ? null : { urgency: field.key as Urgency, when: conditionIn(field) };
}

function ruleText(rule: Place): string {
  const said = urgencyIn(rule);
  return said === null ? textOf(rule) : `${said.urgency}: ${said.when}`;
}

function ruleChanges(classification: string, before: Place, after: Place): Change[] {
  const [was, is] = [urgencyIn(before), urgencyIn(after)];
  if (was === null || is === null || was.when !== is.when)
    return [changed('rule-changed', { classification, from: ruleText(before), to: ruleText(after) }, spotOf(after)), ...timeChanges()];
  if (was.urgency === is.urgency) return [...timeChanges(), ...settingChanges(classification, before, after, times)];
  const kind = urgencies.indexOf(was.urgency) < urgencies.indexOf(is.urgency) ? 'rule-less-urgent' : 'rule-more-urgent';
  return [changed(kind, { classification, rule: is.when, from: was.urgency, to: is.urgency }, spotOf(after)), ...timeChanges()];

  function timeChanges(): Change[] {
    const [from, to] = [timeIn(before), timeIn(after)];
    return from === to ? [] : [changed('rule-time-changed', { classification, rule: ruleText(after), from, to }, spotOf(after))];
  }
}

const times = ['recheck', 'within'];

/** `recheck P1D`; a dash where no time is given. */
function timeIn(rule: Place): string {
  const said = times.flatMap((name) => {
    const time = fieldIn(rule, name);
    return time === undefined ? [] : `${name} ${textOf(time)}`;
  });
  return said.join(', ') || '-';
}
