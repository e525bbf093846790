// Numbers that stand in tables rather than in conditions: the lines for bilirubin, the centiles from which a size has a
// name, and the ages and weeks at which another reference is read. Next: decided-lines.ts.

import type { BilirubinTable } from '../../clinical/care-rules.ts';
import type { Protocol } from '../../clinical/protocol.ts';
import { type DecidedLine, decidedLine } from './decided-line.ts';
import { type Deciding, readersOf } from './deciding-conditions.ts';

export function tableLines(protocol: Protocol, deciding: readonly Deciding[]): DecidedLine[] {
  return [
    ...protocol.bilirubin.tables.flatMap((table) => bilirubinLines(table, protocol, deciding)),
    ...referenceLines(protocol, deciding),
  ];
}

function bilirubinLines({ option, steps }: BilirubinTable, protocol: Protocol, deciding: readonly Deciding[]): DecidedLine[] {
  const classifications = readersOf(['bilirubin'], deciding);
  const options = [[protocol.bilirubin.switch, [option]]] as const;
  return steps.flatMap((step, i) => {
    const ages = [step.fromHours, steps[i + 1]?.fromHours ?? Number.POSITIVE_INFINITY] as const;
    const values = [step.treatment, step.treatmentAtRisk, step.exchange, step.exchangeAtRisk].filter((value) => typeof value === 'number');
    const at = (term: string, value: number, rest: Partial<DecidedLine>): DecidedLine =>
      decidedLine(protocol, { owner: 'bilirubin', term, line: { value, over: false }, classifications, options, ...rest });
    return [
      ...values.map((value) => at('bilirubin', value, { ages })),
      ...(i === 0 ? [] : [at('age', step.fromHours, { besideAny: ['bilirubin'] })]),
    ];
  });
}

function referenceLines(protocol: Protocol, deciding: readonly Deciding[]): DecidedLine[] {
  const { lines } = protocol;
  const at = (term: string, value: number, over: boolean, readBy: string, besideAny: readonly string[]): DecidedLine => {
    const classifications = readersOf([readBy], deciding);
    return decidedLine(protocol, { owner: classifications[0] ?? term, term, line: { value, over }, classifications, besideAny });
  };
  return [
    at('size', lines.smallBelowCentile, false, 'size', []),
    at('size', lines.largeAboveCentile, true, 'size', []),
    at('age', lines.weightStandsInUntilHours, false, 'class-weight', ['weight']),
    at('age', lines.atBirthUntilHours, false, 'head-centile', ['head-circumference']),
    at('gestation', lines.pretermBeforeWeeks, false, 'weight-for-age', ['weight-for-age']),
  ];
}
