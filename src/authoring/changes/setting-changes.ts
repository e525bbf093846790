// What is said of an entry that no other file here has words for: which of its settings was what, and is what. So nothing that an
// author changes goes unsaid.

import type { Place } from '../yaml-source.ts';
import { type Change, changed, removed } from './change.ts';
import { fieldsIn, spotOf, textOf } from './entry.ts';
import { pairsOf } from './pairs.ts';

/** Takes    entry: what it is called. besides: settings that others speak of. */
export function settingChanges(entry: string, before: Place, after: Place, besides: readonly string[] = [], path = ''): Change[] {
  if (textOf(before) === textOf(after)) return [];
  const [was, is] = [fieldsIn(before), fieldsIn(after)];
  if (was.length === 0 || is.length === 0)
    return [
      changed('setting-changed', { entry, setting: path || after.key || entry, from: textOf(before), to: textOf(after) }, spotOf(after)),
    ];
  return pairsOf(was, is, ({ key }) => key).flatMap((pair): Change[] => {
    const { key } = pair.after ?? pair.before;
    if (path === '' && besides.includes(key)) return [];
    const setting = path === '' ? key : `${path}.${key}`;
    if (pair.before === undefined) return [changed('setting-added', { entry, setting, to: textOf(pair.after) }, spotOf(pair.after))];
    if (pair.after === undefined) return [removed('setting-removed', { entry, setting, from: textOf(pair.before) }, spotOf(pair.before))];
    return settingChanges(entry, pair.before, pair.after, [], setting);
  });
}
