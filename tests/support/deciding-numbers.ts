// Every number of a protocol on which a classification hangs, found by walking the protocol itself and not by the check
// that asks for their cases. Next: moved-number.ts, which moves one, and tests/authoring/floor-holds-every-number.test.ts.

import type { Condition } from '../../src/clinical/condition.ts';
import { parts, termIn } from '../../src/clinical/condition-parts.ts';
import type { Line } from '../../src/clinical/number-line.ts';
import type { NumberFinding, Protocol } from '../../src/clinical/protocol.ts';

export interface DecidingNumber {
  /** Such as `very-preterm: age < 168`, with the rule's own rows where it has some. */
  readonly where: string;
  /** The classifications that hang on it. */
  readonly users: readonly string[];
  /** How far a case may stand from it: the last digit that the value is given with. */
  readonly step: number;
  /** The object of the protocol that holds the number, and the same with the number moved. */
  readonly held: object;
  readonly movedBy: (by: number) => object;
}

/** As finely as a case can stand beside what is computed. */
const computedSteps: Readonly<Record<string, number>> = {
  'weight-change': 0.1,
  'weight-gain': 0.5,
  'weight-for-age': 0.05,
  'head-growth': 0.1,
};

export function decidingNumbers(protocol: Protocol): DecidingNumber[] {
  const reading = readingOf(protocol);
  return [
    ...writtenNumbers(protocol, reading),
    ...limitNumbers(protocol, reading),
    ...bandNumbers(protocol, reading),
    ...bilirubinNumbers(protocol, reading),
    ...referenceNumbers(protocol, reading),
  ];
}

/** Every test that a classification hangs on, with all that hang on it. */
type Reading = ReadonlyMap<Condition, { readonly owner: string; readonly users: ReadonlySet<string> }>;

function readingOf(protocol: Protocol): Reading {
  const met = new Map<Condition, { owner: string; users: Set<string> }>();
  const walk = (condition: Condition, owner: string, user: string): void => {
    if ('term' in condition) {
      const known = met.get(condition) ?? { owner, users: new Set() };
      met.set(condition, known);
      known.users.add(user);
    }
    const name = condition.kind === 'named' ? condition.name : owner;
    for (const part of parts(condition)) walk(part, name, user);
    if (termIn(condition).includes('bilirubin')) walk(protocol.bilirubin.atRisk, 'bilirubin', user);
  };
  for (const rule of protocol.classifications.filter((one) => one.givenTo === 'any-baby')) {
    if (rule.unless !== undefined) walk(rule.unless, rule.id, rule.id);
    for (const { when, rows } of [...rule.rules, ...rule.raised]) walk(when, [rule.id, ...rows].join(' '), rule.id);
  }
  return met;
}

function usersOf(reading: Reading, isRead: (condition: Condition) => boolean): string[] {
  return [...new Set([...reading].filter(([condition]) => isRead(condition)).flatMap(([, { users }]) => [...users]))];
}

const reads = (term: string) => (condition: Condition) => termIn(condition).includes(term);

/** `age < 168 h`: each place by itself; one that rules share through a named condition once. */
function writtenNumbers(protocol: Protocol, reading: Reading): DecidingNumber[] {
  return [...reading].flatMap(([test, { owner, users }]) => {
    if (test.kind !== 'compared' || !('number' in test.to)) return [];
    const { number } = test.to;
    return {
      where: `${owner}: ${test.term} ${test.comparator} ${Number(number.toFixed(3))}`,
      users: [...users],
      step: stepOf(protocol, test.term, number),
      held: test,
      movedBy: (by) => ({ ...test, to: { number: number + by } }),
    };
  });
}

/** Where a limit lies by default, and where each option of a switch puts it. */
function limitNumbers(protocol: Protocol, reading: Reading): DecidingNumber[] {
  return [...protocol.limits.values()].flatMap((limit) => {
    const isOf = (condition: Condition): boolean =>
      (condition.kind === 'beside-line' && condition.limit.id === limit.id) ||
      ('finding' in condition && condition.finding.bands.some((band) => band.limit === limit.id));
    const test = [...reading.keys()].find(isOf);
    const term = test === undefined ? '' : (termIn(test)[0] ?? '');
    const at = (line: Line, under: string): DecidingNumber => ({
      where: `${limit.id}: ${line.value}${under}`,
      users: usersOf(reading, isOf),
      step: stepOf(protocol, term, line.value),
      held: line,
      movedBy: (by) => ({ ...line, value: line.value + by }),
    });
    const moved = limit.moved.filter(({ line }) => Number.isFinite(line.value));
    return [at(limit.line, ''), ...moved.map((move) => at(move.line, ` under ${move.switch}: ${move.option}`))];
  });
}

/** Where a band begins, when that is no limit of its own and something tells it from the band below. */
function bandNumbers(protocol: Protocol, reading: Reading): DecidingNumber[] {
  return measuredIn(protocol).flatMap((finding) => {
    const { id, bands } = finding;
    return bands.flatMap((band, i) => {
      const below = bands[i - 1]?.id ?? '';
      const tells = (condition: Condition): boolean =>
        'bands' in condition && condition.term === id && condition.bands.includes(below) !== condition.bands.includes(band.id);
      if (i === 0 || band.limit !== undefined || ![...reading.keys()].some(tells)) return [];
      return {
        where: `${id}: ${band.openFrom ? 'over' : 'from'} ${band.from}`,
        users: usersOf(reading, tells),
        step: stepOf(protocol, id, band.from),
        held: bands,
        movedBy: (by) =>
          bands.map((one, at) => (at === i ? { ...one, from: one.from + by } : at === i - 1 ? { ...one, to: one.to + by } : one)),
      };
    });
  });
}

function bilirubinNumbers({ bilirubin }: Protocol, reading: Reading): DecidingNumber[] {
  return bilirubin.tables.flatMap(({ option, steps }) =>
    steps.flatMap((step) =>
      Object.entries(step)
        .filter(([, value]) => typeof value === 'number' && value > 0)
        .map(([name, value]: [string, number]) => ({
          where: `bilirubin ${option} from ${step.fromHours} h: ${name} ${value}`,
          users: usersOf(reading, reads('bilirubin')),
          step: 1,
          held: step,
          movedBy: (by) => ({ ...step, [name]: value + by }),
        })),
    ),
  );
}

const readBy = {
  smallBelowCentile: 'size',
  largeAboveCentile: 'size',
  weightStandsInUntilHours: 'class-weight',
  atBirthUntilHours: 'head-centile',
  pretermBeforeWeeks: 'weight-for-age',
} as const;

function referenceNumbers({ lines }: Protocol, reading: Reading): DecidingNumber[] {
  return (Object.keys(readBy) as (keyof typeof readBy)[]).map((name) => ({
    where: `lines: ${name} ${lines[name]}`,
    users: usersOf(reading, reads(readBy[name])),
    step: 1,
    held: lines,
    movedBy: (by) => ({ ...lines, [name]: lines[name] + by }),
  }));
}

function measuredIn(protocol: Protocol): NumberFinding[] {
  return [...protocol.findings, ...protocol.measures.values()].filter((one): one is NumberFinding => 'bands' in one);
}

function stepOf(protocol: Protocol, term: string, value: number): number {
  const measured = measuredIn(protocol).find((one) => one.id === term);
  if (measured === undefined) return computedSteps[term] ?? 1;
  const digit = 10 ** -measured.decimals;
  return Math.abs(value / digit - Math.round(value / digit)) < 1e-6 ? digit : digit / 10;
}
