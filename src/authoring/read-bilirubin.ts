// Reads bilirubin.yaml: the lines that a bilirubin is held against, by age and risk.

import type { Bilirubin, BilirubinLine, BilirubinStep, BilirubinTable } from '../clinical/care-rules.ts';
import { readCondition } from './read-condition.ts';
import type { Vocabulary } from './vocabulary.ts';
import { fieldsOf, itemsOf, needed, numberOf, type Place, type Report, textOf, unknownName } from './yaml-source.ts';

export const noBilirubin: Bilirubin = { switch: '', atRisk: { kind: 'any', of: [] }, yellow: { kind: 'any', of: [] }, tables: [] };

export function readBilirubin(top: Place, vocabulary: Vocabulary, report: Report): Bilirubin {
  const fields = fieldsOf(top, ['switch', 'at-risk', 'yellow', 'tables'], report);
  const switchPlace = needed(fields, 'switch', top, report);
  const chosenBy = switchPlace && textOf(switchPlace, report);
  const riskPlace = needed(fields, 'at-risk', top, report);
  const atRisk = riskPlace && readCondition(riskPlace, vocabulary, report);
  const yellowPlace = needed(fields, 'yellow', top, report);
  const yellow = yellowPlace && readCondition(yellowPlace, vocabulary, report);
  const tablesPlace = needed(fields, 'tables', top, report);
  if (!switchPlace || !chosenBy || !atRisk || !yellow || !tablesPlace) return noBilirubin;
  const known = vocabulary.switches.get(chosenBy);
  if (known === undefined)
    report(
      unknownName(
        switchPlace,
        switchPlace.range,
        'protocol/unknown-switch',
        'switch',
        chosenBy,
        vocabulary.switches.keys(),
        'No line would be chosen.',
      ),
    );
  const tables = itemsOf(tablesPlace).flatMap((item) => readTable(item, known?.options ?? [], report) ?? []);
  return { switch: chosenBy, atRisk, yellow, tables };
}

function readTable(item: Place, options: readonly string[], report: Report): BilirubinTable | null {
  const fields = fieldsOf(item, ['table', 'steps', 'by-weeks'], report);
  const optionPlace = needed(fields, 'table', item, report);
  const option = optionPlace && textOf(optionPlace, report);
  const stepsPlace = needed(fields, 'steps', item, report);
  if (!optionPlace || !option || !stepsPlace) return null;
  if (!options.includes(option))
    report(
      unknownName(optionPlace, optionPlace.range, 'protocol/unknown-option', 'option', option, options, 'The table would never be read.'),
    );
  const byWeeks = fields.get('by-weeks');
  const weeks = byWeeks && readByWeeks(byWeeks, report);
  return { option, steps: itemsOf(stepsPlace).flatMap((step) => readStep(step, report) ?? []), ...(weeks ? { byWeeks: weeks } : {}) };
}

function readStep(item: Place, report: Report): BilirubinStep | null {
  const fields = fieldsOf(item, ['from-hours', 'treatment', 'treatment-at-risk', 'exchange', 'exchange-at-risk'], report);
  const fromHours = number(fields, 'from-hours', item, report);
  if (fromHours === null) return null;
  const line = (name: string): BilirubinLine | undefined => {
    const place = fields.get(name);
    if (place === undefined) return undefined;
    return textOf(place, report) === 'any-yellow' ? 'any-yellow' : (numberOf(place, report) ?? undefined);
  };
  const treatment = line('treatment');
  const treatmentAtRisk = line('treatment-at-risk');
  const exchange = line('exchange');
  const exchangeAtRisk = line('exchange-at-risk');
  return {
    fromHours,
    ...(treatment === undefined ? {} : { treatment }),
    ...(treatmentAtRisk === undefined ? {} : { treatmentAtRisk }),
    ...(typeof exchange === 'number' ? { exchange } : {}),
    ...(typeof exchangeAtRisk === 'number' ? { exchangeAtRisk } : {}),
  };
}

function readByWeeks(place: Place, report: Report): BilirubinTable['byWeeks'] | null {
  const fields = fieldsOf(place, ['before-weeks', 'per-week', 'treatment-less'], report);
  const beforeWeeks = number(fields, 'before-weeks', place, report);
  const perWeek = number(fields, 'per-week', place, report);
  const treatmentLess = number(fields, 'treatment-less', place, report);
  return beforeWeeks === null || perWeek === null || treatmentLess === null ? null : { beforeWeeks, perWeek, treatmentLess };
}

function number(fields: ReadonlyMap<string, Place>, name: string, parent: Place, report: Report): number | null {
  const place = needed(fields, name, parent, report);
  return place && numberOf(place, report);
}
