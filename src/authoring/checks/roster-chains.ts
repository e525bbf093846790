// What facilities say of each other and of whom to ring: no loop of those above, a nurse behind the number, and a coordinator who
// hears of an alert that no nurse takes.

import type { Facility, Person } from '../../conversation/ports.ts';
import { chainFrom } from '../../on-call/chain.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { faultOf } from '../read-roster-cells.ts';
import { cellOf, type Placed } from '../read-roster-table.ts';
import type { Report } from '../yaml-source.ts';

export function checkChains(facilities: readonly Placed<Facility>[], report: Report): void {
  const byId = new Map(facilities.map((one) => [one.value.id, one]));
  const known = new Set<string>();
  for (const start of facilities) {
    const chain: Placed<Facility>[] = [];
    let next: Placed<Facility> | undefined = start;
    while (next !== undefined && !known.has(next.value.id)) {
      chain.push(next);
      known.add(next.value.id);
      next = byId.get(next.value.above ?? '');
    }
    const from = next === undefined ? -1 : chain.indexOf(next);
    if (from !== -1) report(loopOf(chain.slice(from)));
  }
}

function loopOf(loop: readonly Placed<Facility>[]): Diagnostic {
  const [first, ...others] = loop as [Placed<Facility>, ...Placed<Facility>[]];
  const named = [...loop, first].map(({ value }) => value.id).join(' -> ');
  const fix = 'Leave "above" empty for the one that nobody stands above, such as the district hospital.';
  const why = 'An alert that nobody takes would go round and never reach anybody new.';
  const fault = faultOf(
    first.row,
    cellOf(first.row, 'above'),
    'loop-above',
    `These facilities stand above each other: ${named}.`,
    fix,
    why,
  );
  return {
    ...fault,
    related: others.map(({ row }) => ({ file: row.file, range: cellOf(row, 'above').range, what: 'It is part of the loop.' })),
  };
}

/** Warnings: the number may be rung all the same, and a nurse may take the alert. */
export function checkWhoIsReached(facilities: readonly Placed<Facility>[], people: readonly Person[], report: Report): void {
  const find = (id: string): Facility | undefined => facilities.find(({ value }) => value.id === id)?.value;
  for (const { value, row } of facilities) {
    const chain = chainFrom(value.id, find).map(({ id }) => id);
    if (!people.some(({ facility, roles }) => roles.includes('coordinator') && chain.includes(facility))) {
      const what = `There is no coordinator at "${value.id}" or above it.`;
      const fix = 'Add the role coordinator to somebody there in people.csv.';
      const why = 'Nobody would hear of an alert that no nurse takes.';
      report({ ...faultOf(row, cellOf(row, 'id'), 'no-coordinator', what, fix, why), severity: 'warning' });
    }
    if (people.some(({ phone, roles }) => phone === value.nurse && roles.includes('nurse'))) continue;
    const what = `The phone of "${value.id}", ${value.nurse}, is not that of a nurse in people.csv.`;
    const fix = `Add a person with phone ${value.nurse} and role nurse, or write the number of one.`;
    const why = 'When the rota names nobody the alert is texted there, and a reply would not be understood.';
    report({ ...faultOf(row, cellOf(row, 'phone'), 'nurse-not-listed', what, fix, why), severity: 'warning' });
  }
}
