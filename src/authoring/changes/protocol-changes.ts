// The files of the protocol, the lists of what must be asked and the reference cases, entry by entry. Which file holds what kind of
// entry is the table here; what differs within an entry is said by the files that know it, or as a setting.

import type { SourceFile } from '../yaml-source.ts';
import { contactChanges, doseChanges } from './care-changes.ts';
import { type Change, type ChangeKind, changed, removed } from './change.ts';
import { classificationChanges } from './classification-changes.ts';
import { conditionIn, type Entry, entriesIn, textOf } from './entry.ts';
import { findingChanges, limitChanges, switchChanges } from './limit-changes.ts';
import { movedIn } from './moved.ts';
import { pairsOf } from './pairs.ts';
import { settingChanges } from './setting-changes.ts';

interface Subject {
  /** The files that hold such entries. */
  readonly files: RegExp;
  /** The name of its place in the values, and the kinds for one that was added or taken out. */
  readonly called: string;
  readonly added: ChangeKind;
  readonly removed: ChangeKind;
  readonly between: (before: Entry, after: Entry) => Change[];
  /** True: all files are one list, and an entry may move between them. */
  readonly asOneList: boolean;
  /** True: to stand in another order is to mean something else. */
  readonly inOrder: boolean;
}

const plain = { called: 'entry', added: 'entry-added', removed: 'entry-removed', asOneList: false, inOrder: false } as const;
const settings = ({ id, place }: Entry, after: Entry): Change[] => settingChanges(id, place, after.place);

const subjects: readonly Subject[] = [
  {
    files: /^flows\/protocol\/classifications\//,
    called: 'classification',
    added: 'classification-added',
    removed: 'classification-removed',
    between: classificationChanges,
    asOneList: true,
    inOrder: true,
  },
  {
    ...plain,
    files: /^flows\/protocol\/limits\.yaml$/,
    called: 'limit',
    added: 'limit-added',
    removed: 'limit-removed',
    between: limitChanges,
  },
  {
    ...plain,
    files: /^flows\/protocol\/(findings|fields)\.yaml$/,
    called: 'finding',
    added: 'finding-added',
    removed: 'finding-removed',
    between: findingChanges,
    inOrder: true,
  },
  {
    ...plain,
    files: /^flows\/protocol\/switches\.yaml$/,
    called: 'switch',
    added: 'switch-added',
    removed: 'switch-removed',
    between: switchChanges,
  },
  {
    ...plain,
    files: /^flows\/protocol\/conditions\.yaml$/,
    called: 'condition',
    added: 'condition-added',
    removed: 'condition-removed',
    between: (before, after) => [
      changed('condition-changed', { condition: after.id, from: conditionIn(before.place), to: conditionIn(after.place) }, after),
    ],
  },
  { ...plain, files: /^flows\/protocol\/doses\.yaml$/, called: 'drug', added: 'dose-added', removed: 'dose-removed', between: doseChanges },
  { ...plain, files: /^flows\/protocol\/contacts\.yaml$/, between: contactChanges },
  { ...plain, files: /^flows\/protocol\/advice\.yaml$/, between: settings, inOrder: true },
  { ...plain, files: /^flows\/reference-cases\//, called: 'case', added: 'case-added', removed: 'case-removed', between: settings },
  { ...plain, files: /^flows\/(protocol|reference)\/[a-z-]+\.yaml$/, between: settings },
];

export function protocolChanges(before: readonly SourceFile[], after: readonly SourceFile[]): Change[] {
  const subjectOf = ({ name }: SourceFile): Subject | undefined => subjects.find(({ files }) => files.test(name));
  const texts = (sources: readonly SourceFile[]): Map<string, string> => new Map(sources.map(({ name, text }) => [name, text]));
  const [was, is] = [texts(before), texts(after)];
  const isTouched = ({ name }: SourceFile): boolean => was.get(name) !== is.get(name);
  return subjects.flatMap((subject) => {
    const own = (sources: readonly SourceFile[]): Entry[] =>
      sources.filter((source) => subjectOf(source) === subject && isTouched(source)).flatMap((source) => entriesIn(source) ?? []);
    return entryChanges(own(before), own(after), subject);
  });
}

function entryChanges(before: readonly Entry[], after: readonly Entry[], subject: Subject): Change[] {
  const nameOf = ({ file, section, id }: Entry): string => (subject.asOneList ? id : [file, section, id].join('\n'));
  const said = pairsOf(before, after, nameOf).flatMap((pair): Change[] => {
    if (pair.after === undefined) return [removed(subject.removed, { [subject.called]: pair.before.id }, pair.before)];
    if (pair.before === undefined) return [changed(subject.added, { [subject.called]: pair.after.id }, pair.after)];
    const isSame = textOf(pair.before.place) === textOf(pair.after.place) && pair.before.section === pair.after.section;
    if (isSame) return [];
    const within = subject.between(pair.before, pair.after);
    // All that it holds is there, and stands in another order.
    return within.length > 0 ? within : [changed('order-changed', { entry: pair.after.id }, pair.after)];
  });
  if (!subject.inOrder) return said;
  const byName = new Map(after.map((entry) => [nameOf(entry), entry]));
  const moved = movedIn(before.map(nameOf), after.map(nameOf)).flatMap(({ id }) => byName.get(id) ?? []);
  return [...said, ...moved.map((entry) => changed('order-changed', { entry: entry.id }, entry))];
}
