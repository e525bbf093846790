// The safety floor: every reference case comes out at least as urgent as the guideline says, whatever was edited. The cases
// are in flows/reference-cases: classifications.yaml (one baby a line), teaching.json (published teaching cases).

import { parse } from 'yaml';
import { z } from 'zod';
import { interpret } from '../../clinical/interpret.ts';
import { type Interpretation, type Protocol, urgencies } from '../../clinical/protocol.ts';
import { readCase } from '../read-case.ts';
import { type Babies, babyOf } from '../reference-baby.ts';
import { complain, entriesOf, itemsOf, type Place, type Report, readYaml, type SourceFile } from '../yaml-source.ts';

const urgency = z.enum(urgencies);
const line = z.looseObject({ given: z.string(), urgency });
const teaching = z.looseObject({
  id: z.string(),
  input: z.unknown(),
  expected: z.looseObject({ urgency, classifications: z.array(z.string()) }),
});

interface Expected {
  readonly input: unknown;
  /** Of the classification named, or of the baby. */
  readonly urgency: (typeof urgencies)[number];
  readonly of?: string;
  readonly classifications: readonly string[];
}

/** Errors: none; a case that cannot be read is reported where it stands. */
export function checkSafetyFloor(sources: readonly SourceFile[], protocol: Protocol, report: Report): void {
  for (const source of sources) {
    const top = readYaml(source, report);
    const list = top === null ? undefined : entriesOf(top, report).find((entry) => entry.key === 'cases');
    if (list === undefined) continue;
    const { cases } = parse(source.text) as { readonly cases: readonly unknown[] };
    for (const [at, place] of itemsOf(list).entries()) checkOne(cases[at], place, protocol, report);
  }
}

function checkOne(written: unknown, place: Place, protocol: Protocol, report: Report): void {
  const expected = expectedOf(written);
  if (expected === null) {
    report(
      complain(
        place,
        place.range,
        'floor/not-a-case',
        'This case does not say what is expected.',
        'It would guard nothing.',
        'Write it like the cases around it.',
      ),
    );
    return;
  }
  const read = readCase(expected.input, protocol);
  if (read.kind === 'faulty') {
    const [fault] = read.faults;
    report(
      complain(
        place,
        place.range,
        'floor/not-readable',
        `This case cannot be read: ${fault?.field ?? ''} ${fault?.message ?? ''}.`,
        'It would guard nothing.',
        'Mend the case, or the protocol that it is read with.',
      ),
    );
    return;
  }
  hold(interpret(protocol, read.case), expected, place, report);
}

function expectedOf(written: unknown): Expected | null {
  const asLine = line.safeParse(written);
  if (asLine.success)
    return {
      input: babyOf(asLine.data as unknown as Babies),
      urgency: asLine.data.urgency,
      of: asLine.data.given,
      classifications: [asLine.data.given],
    };
  const asTeaching = teaching.safeParse(written);
  if (!asTeaching.success) return null;
  const { input, expected } = asTeaching.data;
  return { input, urgency: expected.urgency, classifications: expected.classifications };
}

function hold(result: Interpretation, expected: Expected, place: Place, report: Report): void {
  const danger = 'A baby like this one would be missed, or sent too late.';
  const absent = expected.classifications.filter((id) => !result.classifications.some((one) => one.id === id));
  if (absent.length > 0) {
    report(
      complain(
        place,
        place.range,
        'floor/not-classified',
        `This baby is no longer "${absent.join('", "')}".`,
        danger,
        'Take back the edit that changed it, or have the case signed off anew.',
      ),
    );
    return;
  }
  const got =
    expected.of === undefined ? result.urgency : (result.classifications.find((one) => one.id === expected.of)?.urgency ?? result.urgency);
  if (rank(got) <= rank(expected.urgency)) return;
  report(
    complain(
      place,
      place.range,
      'floor/less-urgent',
      `This baby comes out "${got}", and the guideline says "${expected.urgency}".`,
      danger,
      'Take back the edit that changed it, or have the case signed off anew.',
    ),
  );
}

/** Most urgent first; what is incomplete ranks last. */
function rank(one: Interpretation['urgency']): number {
  return one === 'incomplete' ? urgencies.length : urgencies.indexOf(one);
}
