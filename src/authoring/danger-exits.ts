// Where a danger leaves a flow: what a step can find that, alone on a baby who is otherwise well, makes it urgent or sends it on.
// Found by interpreting that baby, so no list of dangers is kept. Its age is not known: the age that makes it most urgent counts.
// Next: flow-map.ts.

import { interpret } from '../clinical/interpret.ts';
import type { Band } from '../clinical/number-line.ts';
import type { Case, Finding, NumberFinding, Protocol, Sex } from '../clinical/protocol.ts';
import type { Step } from '../dialog/flow.ts';

/** A sign (`true`), an option of a choice, or a band of a number. */
export interface Found {
  readonly of: string;
  readonly value: string | boolean | number;
}

export interface Exit extends Found {
  readonly to: 'urgent' | 'refer';
}

/** In the order in which the step asks. */
export function exitsOf(step: Step, protocol: Protocol): Exit[] {
  return babiesOf(step, protocol).flatMap(({ found, babies }) => {
    const urgencies = babies.map((baby) => interpret(protocol, baby).urgency);
    const to = (['urgent', 'refer'] as const).find((one) => urgencies.includes(one));
    return to === undefined ? [] : [{ ...found, to }];
  });
}

interface Alone {
  readonly found: Found;
  /** Who has only this: of a band, a baby at either end. */
  readonly babies: readonly Case[];
}

function babiesOf(step: Step, protocol: Protocol): Alone[] {
  switch (step.kind) {
    case 'mark':
      return step.marks.flatMap(({ sets }): Alone[] => {
        if (sets === null || sets.value === null || sets.value === false || Array.isArray(sets.value)) return [];
        const found = { of: sets.of, value: sets.value as Found['value'] };
        return [{ found, babies: [only(sets.of, found.value)] }];
      });
    case 'read':
      return step.fields.flatMap(({ of, options }) => answersOf(of, options, 1, protocol));
    case 'again':
      return answersOf(step.of, [], 2, protocol);
    case 'result':
      return [];
  }
}

/** Takes    readings: how often the same number was counted. */
function answersOf(of: string, offered: readonly string[], readings: number, protocol: Protocol): Alone[] {
  const finding: Finding | undefined = protocol.findingById.get(of) ?? protocol.measures.get(of);
  if (finding === undefined || finding.kind === 'sign' || finding.kind === 'choice') {
    const options = offered.length > 0 ? offered : finding?.kind === 'choice' ? finding.options : [];
    return options.map((value) => ({ found: { of, value }, babies: [only(of, value)] }));
  }
  return finding.bands.map((band) => ({
    found: { of, value: band.id },
    babies: endsOf(band, finding).map((value) => only(of, readings === 1 ? value : new Array<number>(readings).fill(value))),
  }));
}

/** The lowest and the highest value of the band that can be given. */
function endsOf(band: Band, { low, high, decimals }: NumberFinding): number[] {
  const digit = 10 ** -decimals;
  const ends = [band.openFrom ? band.from + digit : band.from, band.closedTo ? band.to : band.to - digit];
  return ends.map((value) => Number(Math.min(high, Math.max(low, value)).toFixed(decimals)));
}

/** A baby of whom all else was looked for and is normal. */
function only(of: string, value: string | boolean | number | readonly number[]): Case {
  const well = { ageHours: null, unlisted: 'normal', findings: {} } as const;
  if (of === 'sex') return { ...well, sex: value as Sex };
  if (of === 'gestation') return { ...well, gestation: { weeks: Number(value) } };
  if (of === 'birth-weight') return { ...well, birthWeightGrams: Number(value) };
  if (of === 'weight') return { ...well, weightGrams: Number(value) };
  return { ...well, findings: { [of]: value } };
}
