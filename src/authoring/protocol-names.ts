// Names that go from one file of the protocol to another: rows, advice keys, and classifications that wait for each other
// in a ring. Whatever is named must be there.

import { awaited } from '../clinical/judging-order.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { Diagnostic } from './diagnostic.ts';
import { scalarsOf } from './scalars.ts';
import { complain, type Place, unknownName } from './yaml-source.ts';

export function checkNames(protocol: Protocol, tops: ReadonlyMap<string, Place | null>): Diagnostic[] {
  const diagnostics: Diagnostic[] = [];
  const keys = new Set(protocol.advice.map((advice) => advice.key));
  for (const [name, top] of tops) {
    if (top === null || name === 'rows.yaml') continue;
    for (const scalar of scalarsOf(top)) {
      if (scalar.under === 'rows' && !protocol.rows.has(scalar.text)) {
        diagnostics.push(
          unknownName(
            top,
            scalar.range,
            'protocol/unknown-row',
            'row',
            scalar.text,
            protocol.rows.keys(),
            'Nobody could tell which guideline the rule follows.',
          ),
        );
      }
      if ((scalar.under === 'advice' || scalar.under === 'silences') && name !== 'advice.yaml' && !keys.has(scalar.text)) {
        diagnostics.push(
          unknownName(
            top,
            scalar.range,
            'protocol/unknown-advice',
            'advice',
            scalar.text,
            keys,
            'The worker would not be told what to do.',
          ),
        );
      }
    }
  }
  for (const ring of ringsOf(protocol)) {
    const top = [...tops.values()].find(
      (place) => place !== null && scalarsOf(place).some((scalar) => scalar.under === 'classification' && scalar.text === ring[0]),
    );
    const scalar = top && scalarsOf(top).find((one) => one.under === 'classification' && one.text === ring[0]);
    if (!top || !scalar) continue;
    diagnostics.push(
      complain(
        top,
        scalar.range,
        'protocol/ring',
        `These wait for each other: ${ring.join(', ')}.`,
        'None of them could be judged first.',
        'Take out one of the "is given" between them.',
      ),
    );
  }
  return diagnostics;
}

function ringsOf(protocol: Protocol): string[][] {
  const rules = protocol.classifications;
  const waitsFor = new Map(rules.map((rule) => [rule.id, awaited(rule, protocol)]));
  const settled = new Set<string>();
  const rings: string[][] = [];
  const visit = (id: string, path: readonly string[]): void => {
    if (settled.has(id)) return;
    if (path.includes(id)) {
      rings.push(path.slice(path.indexOf(id)));
      return;
    }
    for (const other of waitsFor.get(id) ?? []) visit(other, [...path, id]);
    settled.add(id);
  };
  for (const rule of rules) visit(rule.id, []);
  return rings;
}
