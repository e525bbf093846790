// Reads findings.yaml: what may be found on a baby, and what each stretch of a number line means.
// The bands are laid by src/clinical/bands.ts; the lines they begin at may be limits (read-limits.ts).

import { layBands } from '../clinical/bands.ts';
import type { Band, Limit, Line } from '../clinical/number-line.ts';
import type { AskedAt, Finding, NumberFinding } from '../clinical/protocol.ts';
import { readLine } from './read-limits.ts';
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
  yesOf,
} from './yaml-source.ts';

const kinds = ['sign', 'choice', 'number', 'count'] as const;
const times: readonly AskedAt[] = ['first-day', 'postnatal', 'both'];
const sexes = ['girl', 'boy'] as const;
const common = ['finding', 'group', 'kind', 'about', 'rows', 'at', 'danger', 'instead-of', 'sex', 'unlisted'];
const ofKind: Record<(typeof kinds)[number], readonly string[]> = {
  sign: ['variant'],
  choice: ['options', 'variant-options', 'option-sex'],
  number: ['unit', 'range', 'decimals', 'judged-rounded', 'readings', 'holds', 'holds-until', 'bands'],
  count: ['unit', 'range', 'readings', 'holds', 'holds-until', 'bands'],
};
const everyField = [...new Set([...common, ...Object.values(ofKind).flat()])];
const why = 'What the worker finds would not be judged.';

export function readFindings(top: Place, limits: ReadonlyMap<string, Limit>, report: Report): Finding[] {
  const list = fieldsOf(top, ['findings'], report).get('findings');
  const findings: Finding[] = [];
  for (const item of list ? itemsOf(list) : []) {
    const finding = readFinding(item, limits, report);
    if (finding === null) continue;
    if (findings.some((other) => other.id === finding.id)) {
      report(
        complain(
          item,
          item.range,
          'protocol/finding-twice',
          `"${finding.id}" is listed twice.`,
          'Only one of the two would be read.',
          'Take one of them out.',
        ),
      );
      continue;
    }
    findings.push(finding);
  }
  return findings;
}

type Fields = ReadonlyMap<string, Place>;

function readFinding(item: Place, limits: ReadonlyMap<string, Limit>, report: Report): Finding | null {
  const fields: Fields = fieldsOf(item, everyField, report);
  const id = text(fields, 'finding', item, report);
  const group = text(fields, 'group', item, report);
  const kindPlace = needed(fields, 'kind', item, report);
  const kind = kindPlace && wordOf(kindPlace, kinds, report);
  const atPlace = needed(fields, 'at', item, report);
  const at = atPlace && wordOf(atPlace, times, report);
  if (id === null || group === null || !kind || !at) return null;
  const sexPlace = fields.get('sex');
  const sex = sexPlace && wordOf(sexPlace, sexes, report);
  const insteadOf = fields.get('instead-of');
  const shared = {
    id,
    group,
    rows: texts(fields, 'rows', report),
    at,
    danger: yesOf(fields.get('danger'), report),
    notDoneUnlisted: fields.has('unlisted'),
    ...(insteadOf ? { insteadOf: textOf(insteadOf, report) ?? '' } : {}),
    ...(sex ? { sex } : {}),
  };
  if (kind === 'sign') return { ...shared, kind, variant: yesOf(fields.get('variant'), report) };
  if (kind === 'choice') {
    const options = texts(fields, 'options', report);
    const variantOptions = texts(fields, 'variant-options', report);
    for (const option of variantOptions) {
      if (!options.includes(option))
        report(unknownName(item, item.range, 'protocol/unknown-option', `option of ${id}`, option, options, why));
    }
    return { ...shared, kind, options, variantOptions, optionSex: readOptionSex(fields.get('option-sex'), options, report) };
  }
  return readNumberFinding(fields, item, { ...shared, kind }, limits, report);
}

function readOptionSex(place: Place | undefined, options: readonly string[], report: Report): Record<string, 'girl' | 'boy'> {
  const optionSex: Record<string, 'girl' | 'boy'> = {};
  for (const entry of place ? entriesOf(place, report) : []) {
    const sex = wordOf(entry, sexes, report);
    if (!options.includes(entry.key))
      report(unknownName(entry, entry.keyRange, 'protocol/unknown-option', 'option', entry.key, options, why));
    else if (sex !== null) optionSex[entry.key] = sex;
  }
  return optionSex;
}

type Shared = Pick<NumberFinding, 'id' | 'group' | 'rows' | 'at' | 'danger' | 'notDoneUnlisted' | 'kind'>;

function readNumberFinding(
  fields: Fields,
  item: Place,
  shared: Shared,
  limits: ReadonlyMap<string, Limit>,
  report: Report,
): NumberFinding | null {
  const range = readRange(fields, item, report);
  const bandsPlace = needed(fields, 'bands', item, report);
  if (range === null || bandsPlace === null) return null;
  const unit = fields.get('unit');
  const decimals = fields.get('decimals');
  const readings = fields.get('readings');
  const bands = readBands(bandsPlace, range, limits, report);
  const named = new Set(bands.map((band) => band.id));
  const holds = texts(fields, 'holds', report);
  const holdsUntil: Record<string, string> = {};
  const untilPlace = fields.get('holds-until');
  for (const entry of untilPlace ? entriesOf(untilPlace, report) : []) holdsUntil[entry.key] = textOf(entry, report) ?? '';
  for (const id of [...holds, ...Object.entries(holdsUntil).flat()]) {
    if (!named.has(id)) report(unknownName(item, item.range, 'protocol/unknown-band', `band of ${shared.id}`, id, named, why));
  }
  return {
    ...shared,
    unit: unit ? (textOf(unit, report) ?? '') : '',
    ...range,
    decimals: decimals ? (numberOf(decimals, report) ?? 0) : 0,
    judgedRounded: yesOf(fields.get('judged-rounded'), report),
    readings: readings ? (numberOf(readings, report) ?? 1) : 1,
    holds,
    holdsUntil,
    bands,
  };
}

export function readRange(fields: Fields, item: Place, report: Report): { low: number; high: number } | null {
  const place = needed(fields, 'range', item, report);
  const written = place && textOf(place, report);
  if (!place || written === null) return null;
  const match = /^(-?\d+(?:\.\d+)?) to (-?\d+(?:\.\d+)?)$/.exec(written);
  const low = Number(match?.[1]);
  const high = Number(match?.[2]);
  if (match !== null && low < high) return { low, high };
  report(
    complain(
      place,
      place.range,
      'protocol/not-a-range',
      `"${written}" is not a range.`,
      'No value could be told from a slip of the thumb.',
      'Write the lowest and the highest plausible value, such as "25.0 to 43.0".',
    ),
  );
  return null;
}

export function readBands(
  place: Place,
  { low, high }: { low: number; high: number },
  limits: ReadonlyMap<string, Limit>,
  report: Report,
): Band[] {
  const starts: { band: Omit<Band, 'from' | 'to' | 'openFrom' | 'closedTo'>; line: Line }[] = [];
  for (const item of itemsOf(place)) {
    const fields = fieldsOf(item, ['id', 'from', 'over', 'limit', 'routine', 'rows'], report);
    const id = text(fields, 'id', item, report);
    if (id === null) continue;
    const limitPlace = fields.get('limit');
    const limit = limitPlace && textOf(limitPlace, report);
    const band = { id, routine: yesOf(fields.get('routine'), report), rows: texts(fields, 'rows', report), ...(limit ? { limit } : {}) };
    if (starts.length === 0) {
      reportGap(fields, id, low, report);
      starts.push({ band, line: { value: low, over: false } });
      continue;
    }
    const known = limit ? limits.get(limit) : undefined;
    if (limitPlace && limit && known === undefined) {
      report(
        unknownName(
          limitPlace,
          limitPlace.range,
          'protocol/unknown-limit',
          'limit',
          limit,
          limits.keys(),
          'Values on this line would have no meaning.',
        ),
      );
      continue;
    }
    const line = known?.line ?? readLine(fields, item, report);
    if (line === null) continue;
    const before = starts.at(-1);
    if (before && line.value < before.line.value) {
      report(
        complain(
          item,
          item.range,
          'protocol/bands-out-of-order',
          `Band "${id}" begins below the band before it.`,
          'The band before it would never be met.',
          'List the bands from the lowest to the highest.',
        ),
      );
      continue;
    }
    starts.push({ band, line });
  }
  return layBands(starts, low, high);
}

/** The first band reaches down to the lowest plausible value, whatever it says: a line of its own would be a gap that nobody sees. */
function reportGap(fields: Fields, id: string, low: number, report: Report): void {
  const line = fields.get('from') ?? fields.get('over') ?? fields.get('limit');
  if (line === undefined) return;
  const what = `The lowest band, "${id}", says where it begins.`;
  const why = `It begins at ${low}, the lowest plausible value; a line above it would leave values without a meaning.`;
  report(complain(line, line.keyRange, 'protocol/gap-in-bands', what, why, 'Take the line out, or put a band before it.'));
}

function text(fields: Fields, name: string, parent: Place, report: Report): string | null {
  const place = needed(fields, name, parent, report);
  return place && textOf(place, report);
}

function texts(fields: Fields, name: string, report: Report): string[] {
  const place = fields.get(name);
  return place ? textsOf(place, report) : [];
}
