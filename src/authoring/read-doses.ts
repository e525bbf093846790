// Reads doses.yaml, feeds.yaml and contacts.yaml: what may be given, how much milk, and when the baby is seen again.

import type { ContactRule, ContactSchedule, DoseAmount, DoseRule, FeedTable, FeedVolumes } from '../clinical/care-rules.ts';
import { readCondition } from './read-condition.ts';
import type { Vocabulary } from './vocabulary.ts';
import { entriesOf, fieldsOf, itemsOf, needed, numberOf, type Place, type Report, textOf, unknownName, yesOf } from './yaml-source.ts';

type Fields = ReadonlyMap<string, Place>;

export function readDoses(top: Place, vocabulary: Vocabulary, report: Report): DoseRule[] {
  const list = fieldsOf(top, ['doses'], report).get('doses');
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['drug', 'row', 'unit', 'times', 'needs-weight', 'when', 'already', 'vial', 'amounts'], report);
    const drug = text(fields, 'drug', item, report);
    const row = text(fields, 'row', item, report);
    const unit = text(fields, 'unit', item, report);
    const times = text(fields, 'times', item, report);
    const when = condition(fields, 'when', item, vocabulary, report);
    const amountsPlace = needed(fields, 'amounts', item, report);
    if (drug === null || row === null || unit === null || times === null || when === null || amountsPlace === null) return [];
    const already = fields.has('already') ? condition(fields, 'already', item, vocabulary, report) : null;
    const vial = fields.has('vial') ? text(fields, 'vial', item, report) : null;
    if (vial !== null && vocabulary.findings.get(vial)?.kind !== 'choice') {
      report(
        unknownName(
          item,
          fields.get('vial')?.range ?? item.range,
          'protocol/unknown-finding',
          'choice',
          vial,
          vocabulary.findings.keys(),
          'No millilitres would ever be shown.',
        ),
      );
    }
    return {
      drug,
      row,
      unit,
      times,
      when,
      needsWeight: yesOf(fields.get('needs-weight'), report),
      amounts: itemsOf(amountsPlace).flatMap((one) => readAmount(one, vocabulary, report) ?? []),
      ...(already ? { already } : {}),
      ...(vial ? { vial } : {}),
    };
  });
}

function readAmount(item: Place, vocabulary: Vocabulary, report: Report): DoseAmount | null {
  const fields = fieldsOf(item, ['when', 'amount', 'per-kg', 'at-most', 'ceiling', 'vials', 'row'], report);
  const when = condition(fields, 'when', item, vocabulary, report);
  const row = text(fields, 'row', item, report);
  if (when === null || row === null) return null;
  const amount = optionalNumber(fields, 'amount', report);
  const perKg = optionalNumber(fields, 'per-kg', report);
  const atMost = optionalNumber(fields, 'at-most', report);
  if (amount === undefined && perKg === undefined) needed(fields, 'amount', item, report);
  const ceilingPlace = fields.get('ceiling');
  const ceiling = ceilingPlace && readCeiling(ceilingPlace, report);
  const vialsPlace = fields.get('vials');
  const vials = Object.fromEntries(
    (vialsPlace ? entriesOf(vialsPlace, report) : []).map((entry) => [entry.key, numberOf(entry, report) ?? 0]),
  );
  return {
    when,
    row,
    vials,
    ...(amount === undefined ? {} : { amount }),
    ...(perKg === undefined ? {} : { perKg }),
    ...(atMost === undefined ? {} : { atMost }),
    ...(ceiling ? { ceiling } : {}),
  };
}

function readCeiling(place: Place, report: Report): DoseAmount['ceiling'] | null {
  const fields = fieldsOf(place, ['amount', 'per-kg'], report);
  const amount = number(fields, 'amount', place, report);
  const perKg = number(fields, 'per-kg', place, report);
  return amount === null || perKg === null ? null : { amount, perKg };
}

export function readFeeds(top: Place, vocabulary: Vocabulary, report: Report): { switch: string; tables: FeedTable[] } {
  const { chosenBy, items } = readChoice(top, 'tables', 'table', vocabulary, report);
  const tables = items.map(({ option, fields, item }) => {
    const volumes = needed(fields, 'volumes', item, report);
    return { option, volumes: (volumes ? itemsOf(volumes) : []).flatMap((one) => readVolumes(one, report) ?? []) };
  });
  return { switch: chosenBy, tables };
}

function readVolumes(item: Place, report: Report): FeedVolumes | null {
  const fields = fieldsOf(item, ['from-grams', 'feeds-per-day', 'ml-per-kg-day', 'ml-per-feed', 'row'], report);
  const fromGrams = number(fields, 'from-grams', item, report);
  const feedsPerDay = number(fields, 'feeds-per-day', item, report);
  const row = text(fields, 'row', item, report);
  if (fromGrams === null || feedsPerDay === null || row === null) return null;
  const days = (name: string): number[] | undefined => {
    const place = fields.get(name);
    return place && itemsOf(place).map((day) => numberOf(day, report) ?? 0);
  };
  const mlPerKgDay = days('ml-per-kg-day');
  const mlPerFeed = days('ml-per-feed');
  return { fromGrams, feedsPerDay, row, ...(mlPerKgDay ? { mlPerKgDay } : {}), ...(mlPerFeed ? { mlPerFeed } : {}) };
}

export function readContacts(top: Place, vocabulary: Vocabulary, report: Report): { switch: string; schedules: ContactSchedule[] } {
  const { chosenBy, items } = readChoice(top, 'schedules', 'schedule', vocabulary, report);
  const schedules = items.map(({ option, fields, item }) => {
    const contacts = needed(fields, 'contacts', item, report);
    return { option, contacts: (contacts ? itemsOf(contacts) : []).flatMap((one) => readContact(one, vocabulary, report) ?? []) };
  });
  return { switch: chosenBy, schedules };
}

function readContact(item: Place, vocabulary: Vocabulary, report: Report): ContactRule | null {
  const fields = fieldsOf(item, ['contact', 'from-hours', 'to-hours', 'again-after', 'when', 'row'], report);
  const contact = text(fields, 'contact', item, report);
  const fromHours = number(fields, 'from-hours', item, report);
  const toHours = number(fields, 'to-hours', item, report);
  const row = text(fields, 'row', item, report);
  if (contact === null || fromHours === null || toHours === null || row === null) return null;
  const when = fields.has('when') ? condition(fields, 'when', item, vocabulary, report) : null;
  return { contact, fromHours, toHours, row, againAfter: yesOf(fields.get('again-after'), report), ...(when ? { when } : {}) };
}

/** A file whose parts are chosen by one switch. */
function readChoice(top: Place, list: string, name: string, vocabulary: Vocabulary, report: Report) {
  const fields = fieldsOf(top, ['switch', list], report);
  const switchPlace = needed(fields, 'switch', top, report);
  const chosenBy = (switchPlace && textOf(switchPlace, report)) ?? '';
  const known = vocabulary.switches.get(chosenBy);
  if (switchPlace && known === undefined)
    report(
      unknownName(
        switchPlace,
        switchPlace.range,
        'protocol/unknown-switch',
        'switch',
        chosenBy,
        vocabulary.switches.keys(),
        'Nothing would be chosen.',
      ),
    );
  const listPlace = needed(fields, list, top, report);
  const items = (listPlace ? itemsOf(listPlace) : []).flatMap((item) => {
    const own = fieldsOf(item, [name, 'volumes', 'contacts'], report);
    const place = needed(own, name, item, report);
    const option = place && textOf(place, report);
    if (!place || !option) return [];
    if (known !== undefined && !known.options.includes(option))
      report(unknownName(place, place.range, 'protocol/unknown-option', 'option', option, known.options, 'It would never be read.'));
    return [{ option, fields: own, item }];
  });
  return { chosenBy, items };
}

function text(fields: Fields, name: string, parent: Place, report: Report): string | null {
  const place = needed(fields, name, parent, report);
  return place && textOf(place, report);
}

function number(fields: Fields, name: string, parent: Place, report: Report): number | null {
  const place = needed(fields, name, parent, report);
  return place && numberOf(place, report);
}

function optionalNumber(fields: Fields, name: string, report: Report): number | undefined {
  const place = fields.get(name);
  return place === undefined ? undefined : (numberOf(place, report) ?? undefined);
}

function condition(fields: Fields, name: string, parent: Place, vocabulary: Vocabulary, report: Report) {
  const place = needed(fields, name, parent, report);
  return place && readCondition(place, vocabulary, report);
}
