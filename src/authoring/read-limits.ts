// Reads limits.yaml and switches.yaml: the lines of the protocol, and the switches that move them.
// Next: read-findings.ts, whose bands begin at these lines.

import type { Limit, Line, Switch } from '../clinical/number-line.ts';
import {
  complain,
  entriesOf,
  fieldsOf,
  itemsOf,
  needed,
  numberOf,
  type Place,
  type Report,
  textOf,
  textsOf,
  unknownName,
  wordOf,
} from './yaml-source.ts';

/** Who chooses among the options of a switch: the programme, or the guideline when the programme's choice is left out. */
export type ChosenBy = 'programme' | 'guideline';

const whyLine = 'Values on this line would have no meaning.';
const whySwitch = 'The choice of the programme would change nothing.';

export function readSwitches(top: Place, report: Report, by: ChosenBy = 'programme'): Map<string, Switch> {
  const switches = new Map<string, Switch>();
  const list = fieldsOf(top, ['switches'], report).get('switches');
  for (const item of list ? itemsOf(list) : []) {
    const fields = fieldsOf(item, ['switch', 'options', 'chosen', 'row', 'changes'], report);
    const id = needed(fields, 'switch', item, report);
    const options = needed(fields, 'options', item, report);
    const row = needed(fields, 'row', item, report);
    if (!id || !options || !row) continue;
    const name = textOf(id, report);
    const rowId = textOf(row, report);
    const written = textsOf(options, report);
    const [guideline] = written;
    if (name === null || rowId === null || guideline === undefined) continue;
    const wish = fields.get('chosen');
    const wished = wish && wordOf(wish, written, report);
    const chosen = by === 'programme' ? (wished ?? guideline) : guideline;
    switches.set(name, { id: name, options: [chosen, ...written.filter((one) => one !== chosen)], guideline, row: rowId });
  }
  return switches;
}

export function readLimits(top: Place, switches: ReadonlyMap<string, Switch>, report: Report): Map<string, Limit> {
  const limits = new Map<string, Limit>();
  const all = fieldsOf(top, ['limits'], report).get('limits');
  for (const entry of all ? entriesOf(all, report) : []) {
    const fields = fieldsOf(entry, [...lineWords, 'moved'], report);
    const line = readLine(fields, entry, report);
    if (line === null) continue;
    const moved = fields.get('moved');
    const moves = moved ? itemsOf(moved).flatMap((item) => readMove(item, switches, report) ?? []) : [];
    limits.set(entry.key, { id: entry.key, line, moved: moves });
  }
  return limits;
}

function readMove(place: Place, switches: ReadonlyMap<string, Switch>, report: Report): Limit['moved'][number] | null {
  const entries = entriesOf(place, report);
  const line = readLine(new Map(entries.map((entry) => [entry.key, entry])), place, report);
  const choice = entries.find((entry) => !(lineWords as readonly string[]).includes(entry.key));
  if (choice === undefined) {
    report(
      complain(
        place,
        place.range,
        'protocol/no-switch',
        'This does not say which switch moves the line.',
        whySwitch,
        'Write "switch-name: option" first.',
      ),
    );
    return null;
  }
  const chosen = switches.get(choice.key);
  if (chosen === undefined) {
    report(unknownName(choice, choice.keyRange, 'protocol/unknown-switch', 'switch', choice.key, switches.keys(), whySwitch));
    return null;
  }
  const option = textOf(choice, report);
  if (option === null || line === null) return null;
  if (!chosen.options.includes(option)) {
    report(unknownName(choice, choice.range, 'protocol/unknown-option', `option of ${chosen.id}`, option, chosen.options, whySwitch));
    return null;
  }
  return { switch: chosen.id, option, line };
}

const lineWords = ['from', 'over', 'never'] as const;

/** `from: 60`, `over: 18` or `never: yes`. */
export function readLine(fields: ReadonlyMap<string, Place>, parent: Place, report: Report): Line | null {
  const given = lineWords.filter((word) => fields.has(word));
  const word = given[0];
  if (word === undefined || given.length > 1) {
    report(
      complain(
        parent,
        parent.keyRange,
        'protocol/no-line',
        `"${parent.key}" needs one of "from", "over" or "never".`,
        whyLine,
        'Write "from: 60" where 60 lies beyond the line, "over: 60" where it does not.',
      ),
    );
    return null;
  }
  if (word === 'never') return { value: Number.POSITIVE_INFINITY, over: false };
  const place = fields.get(word);
  const value = place ? numberOf(place, report) : null;
  return value === null ? null : { value, over: word === 'over' };
}
