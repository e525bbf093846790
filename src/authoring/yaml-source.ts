// YAML read so that nothing is guessed: every scalar stays the text that the author wrote, and every node knows its place.
// The readers beside this file give fields their types. What is wrong is reported, never thrown.

import { isMap, isScalar, isSeq, LineCounter, type Node } from 'yaml';
import { composeYaml } from './compose-yaml.ts';
import { type Diagnostic, type Range, wholeFile } from './diagnostic.ts';
import { nearestName } from './nearest-name.ts';

/** One file as it was read. */
export interface SourceFile {
  readonly name: string;
  readonly text: string;
}

/** A node and where it stands; `key` is what it was written under. */
export interface Place {
  readonly file: string;
  readonly key: string;
  readonly node: Node | null;
  readonly range: Range;
  readonly keyRange: Range;
  readonly lines: LineCounter;
}

export type Report = (diagnostic: Diagnostic) => void;

/** What stands in `why` when a whole part of a file cannot be used. */
const unread = 'What stands here is not used, and the protocol is not loaded.';

/** The file's top node, or null when it is not YAML. */
export function readYaml(source: SourceFile, report: Report): Place | null {
  const lines = new LineCounter();
  const composed = composeYaml(source.text, lines);
  if (composed.kind === 'too-deep') {
    report(tooDeep(source, composed.at));
    return null;
  }
  const { document, others } = composed;
  const unreadable = (from: number, to: number, what: string, fix: string): void =>
    report(complain({ file: source.name }, rangeOf(lines, from, to), 'yaml/not-readable', what, unread, fix));
  const check = 'Check the indentation, the colons and the quotes of this line and the one above it.';
  for (const { pos, message } of document.errors.slice(0, mostFaults)) unreadable(...pos, message, check);
  if (others !== null) unreadable(others, others + 1, 'A second document begins here.', 'Take out the line of dashes before it.');
  if (document.errors.length > 0 || others !== null) return null;
  const node = document.contents as Node | null;
  const range = node?.range ? rangeOf(lines, node.range[0], node.range[1]) : wholeFile;
  return { file: source.name, key: '', node, range, keyRange: range, lines };
}

/** One slip can leave every line after it unreadable; the first few say where. */
const mostFaults = 10;

function tooDeep({ name, text }: SourceFile, at: number): Diagnostic {
  const before = text.slice(0, at).split('\n');
  const start = { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
  const what = 'From here on this is nested deeper than any file may be.';
  const fix = 'Close the brackets that are open here, or take the indentation out.';
  return complain({ file: name }, { start, end: { line: start.line, column: start.column + 1 } }, 'yaml/too-deep', what, unread, fix);
}

function rangeOf(lines: LineCounter, from: number, to: number): Range {
  const start = lines.linePos(from);
  const end = lines.linePos(Math.max(from, to));
  return {
    start: { line: Math.max(1, start.line), column: Math.max(1, start.col) },
    end: { line: Math.max(1, end.line), column: Math.max(1, end.col) },
  };
}

export function rangeOfNode(place: Place, node: Node): Range {
  return node.range ? rangeOf(place.lines, node.range[0], node.range[1]) : place.range;
}

function placeOf(parent: Place, key: string, node: Node | null, keyRange: Range): Place {
  const range = node?.range ? rangeOf(parent.lines, node.range[0], node.range[1]) : keyRange;
  return { file: parent.file, key, node, range, keyRange, lines: parent.lines };
}

export function complain(place: Pick<Place, 'file'>, range: Range, code: string, what: string, why: string, fix: string): Diagnostic {
  return { code, severity: 'error', file: place.file, range, what, why, fix, related: [] };
}

/** A map's entries in the order written. Anything else is reported and gives none. */
export function entriesOf(place: Place, report: Report): Place[] {
  if (!isMap(place.node)) {
    report(
      complain(
        place,
        place.range,
        'yaml/not-a-map',
        `${quoted(place)} is not a map of names and values.`,
        unread,
        'Write "name: value" lines, indented.',
      ),
    );
    return [];
  }
  return place.node.items.flatMap((pair) => {
    const keyNode = pair.key as Node | null;
    const key = isScalar(keyNode) ? String(keyNode.value) : '';
    const keyRange = keyNode?.range ? rangeOf(place.lines, keyNode.range[0], keyNode.range[1]) : place.range;
    return [placeOf(place, key, (pair.value as Node | null) ?? null, keyRange)];
  });
}

/** A map's entries by name; a name that is not allowed is reported with the nearest one that is. */
export function fieldsOf(place: Place, allowed: readonly string[], report: Report): Map<string, Place> {
  const fields = new Map<string, Place>();
  for (const entry of entriesOf(place, report)) {
    if (!allowed.includes(entry.key)) {
      report(unknownName(entry, entry.keyRange, 'yaml/unknown-field', 'field', entry.key, allowed, unread));
      continue;
    }
    fields.set(entry.key, entry);
  }
  return fields;
}

/** A list's items, or the one item that stands in its place. */
export function itemsOf(place: Place): Place[] {
  if (!isSeq(place.node)) return place.node === null ? [] : [place];
  return place.node.items.map((item) => placeOf(place, place.key, item as Node | null, place.range));
}

export function isList(place: Place): boolean {
  return isSeq(place.node);
}

export function isMapping(place: Place): boolean {
  return isMap(place.node);
}

/** A scalar's text, trimmed; null and reported when there is none. */
export function textOf(place: Place, report: Report): string | null {
  if (isScalar(place.node) && typeof place.node.value === 'string' && place.node.value.trim() !== '') return place.node.value.trim();
  report(
    complain(place, place.range, 'yaml/not-a-text', `${quoted(place)} has no text.`, unread, 'Write a word or a sentence after the colon.'),
  );
  return null;
}

export function textsOf(place: Place, report: Report): string[] {
  return itemsOf(place).flatMap((item) => textOf(item, report) ?? []);
}

export function numberOf(place: Place, report: Report): number | null {
  const text = textOf(place, report);
  if (text === null) return null;
  if (/^-?\d+(\.\d+)?$/.test(text)) return Number(text);
  report(
    complain(place, place.range, 'yaml/not-a-number', `"${text}" is not a number.`, unread, 'Write digits with a point, such as 36.5.'),
  );
  return null;
}

/** `yes` or `no`; left out is no. */
export function yesOf(place: Place | undefined, report: Report): boolean {
  if (place === undefined) return false;
  const text = textOf(place, report);
  if (text === 'yes' || text === 'no') return text === 'yes';
  if (text !== null)
    report(complain(place, place.range, 'yaml/not-yes-or-no', `"${text}" is neither yes nor no.`, unread, 'Write yes or no.'));
  return false;
}

/** One of a few words; anything else is reported with the nearest. */
export function wordOf<W extends string>(place: Place, words: readonly W[], report: Report): W | null {
  const text = textOf(place, report);
  if (text === null) return null;
  if ((words as readonly string[]).includes(text)) return text as W;
  report(unknownName(place, place.range, 'yaml/unknown-word', place.key, text, words, unread));
  return null;
}

/** A field that must be there. */
export function needed(fields: ReadonlyMap<string, Place>, name: string, parent: Place, report: Report): Place | null {
  const field = fields.get(name);
  if (field !== undefined) return field;
  report(complain(parent, parent.range, 'yaml/field-missing', `"${name}" is missing here.`, unread, `Add "${name}: ...".`));
  return null;
}

export function unknownName(
  place: Pick<Place, 'file'>,
  range: Range,
  code: string,
  kind: string,
  name: string,
  names: Iterable<string>,
  why: string,
): Diagnostic {
  const all = [...names];
  const near = nearestName(name, all);
  const shown = all.slice(0, 12).join(', ') + (all.length > 12 ? ', ...' : '');
  const fix = near !== null ? `Write "${near}".` : all.length === 0 ? 'Take it out.' : `Write one of: ${shown}.`;
  return complain(place, range, code, `There is no ${kind} "${name}".`, why, fix);
}

function quoted(place: Place): string {
  return place.key === '' ? 'This' : `"${place.key}"`;
}

/** The range of some characters of a scalar written on one line; of the whole scalar when it runs over several. */
export function rangeWithin(place: Place, from: number, to: number): Range {
  const { start, end } = place.range;
  if (start.line !== end.line || !isScalar(place.node)) return place.range;
  const quote = place.node.type === 'QUOTE_DOUBLE' || place.node.type === 'QUOTE_SINGLE' ? 1 : 0;
  return { start: { line: start.line, column: start.column + quote + from }, end: { line: start.line, column: start.column + quote + to } };
}
