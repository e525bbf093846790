// The dialog and the clinical core alone, by processor time: `takeTurn`, `interpret` and `assess` a second. Next: turns.ts, interpretations.ts.

import { interpreterFor } from '../../src/clinical/interpret.ts';
import { type Bench, root } from './bench.ts';
import { casesAsked, casesPerSecond, linesPerSecond, protocolIn, referenceCases } from './interpretations.ts';
import { openMix } from './mix.ts';
import { spreadOf } from './spread.ts';
import { transitionsPerSecond } from './statechart.ts';
import { turnsPerSecond } from './turns.ts';

export async function measurePure({ isShort, rounds, print }: Bench): Promise<void> {
  const passes = isShort ? 2 : 40;
  const { mix, book, worker } = openMix();
  const perSecond = Array.from({ length: rounds + 1 }, () => turnsPerSecond(mix, passes, book, worker, Date.now())).slice(1);
  print({
    bench: 'take-turn',
    unit: 'turns/s',
    ...spreadOf(perSecond, 0),
    method: `takeTurn in one process, by processor time, no store, no words; ${mix.length} whole examinations (1 urgent), ${mix.flat().length} texts, ${passes} passes a round, one round of warm-up`,
  });

  const [normal = []] = mix;
  const ratios: number[] = [];
  const transitions: number[] = [];
  for (let round = 0; round <= rounds; round += 1) {
    const turns = turnsPerSecond([normal], passes * 4, book, worker, Date.now());
    const { perSecond: theirs, asked } = transitionsPerSecond(normal, passes * 4, book, worker, Date.now());
    if (!asked.includes('care'))
      throw new Error(`The machine asked only ${asked.join(', ')}. Run its part again after mending statechart.ts.`);
    if (round === 0) continue;
    transitions.push(theirs);
    ratios.push(turns / theirs);
  }
  print({
    bench: 'turn-to-statechart',
    unit: 'ratio',
    ...spreadOf(ratios, 3),
    transitions: spreadOf(transitions, 0),
    method:
      'turns a second of takeTurn, which reads the text and says what to ask, over pure transitions of xstate on the same normal examination, a state for each step, answers read already; by processor time',
  });

  const protocol = await protocolIn(`${root}flows`);
  const reference = referenceCases(`${root}flows`, protocol);
  const asked = casesAsked(mix, book, worker, Date.now());
  const clinical = [
    {
      bench: 'interpret',
      unit: 'cases/s',
      rate: () => casesPerSecond(reference, passes, interpreterFor(protocol)),
      of: `the reference cases that ship: ${reference.length}`,
    },
    {
      bench: 'interpret-asked',
      unit: 'cases/s',
      rate: () => casesPerSecond(asked, passes, book.interpret),
      of: `every case that the mix asks for: ${asked.length}`,
    },
    {
      bench: 'assess',
      unit: 'lines/s',
      rate: () => linesPerSecond(reference, passes, protocol),
      of: `the reference cases, read, interpreted and printed: ${reference.length}`,
    },
  ];
  for (const { bench, unit, rate, of } of clinical) {
    const measured = Array.from({ length: rounds + 1 }, rate).slice(1);
    print({
      bench,
      unit,
      ...spreadOf(measured, 0),
      method: `${of} cases, in one process, by processor time, one round of warm-up`,
    });
  }
}
