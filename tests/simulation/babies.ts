// A newborn as she is, so that what the register says of her can be held against it. Invented. Next: examinations.ts.

import { say } from '../../src/messages/catalogue.ts';
import { published } from '../support/desk.ts';
import type { Chance } from './chance.ts';

/** A sign by the step of the flow that asks for it and the digit that it stands under there. */
export interface Sign {
  readonly step: string;
  readonly digit: string;
}

export interface Baby {
  readonly girl: boolean;
  readonly hours: number;
  readonly weeks: number;
  readonly grams: number;
  readonly temperature: number;
  readonly breaths: number;
  readonly heart: number;
  /** What is to be seen of her; at most one at a step. */
  readonly signs: readonly Sign[];
}

/** How often a baby has a danger sign, any other sign at each step, and is cool. */
export interface Prevalence {
  readonly danger: number;
  readonly sign: number;
  readonly cool: number;
}
export const usualPrevalence: Prevalence = { danger: 0.06, sign: 0.02, cool: 0.05 };
/** So many that a sign which is lost, doubled or put to another question is seen. */
export const manySigns: Prevalence = { danger: 0.2, sign: 0.3, cool: 0.05 };

const dangers: readonly Sign[] = ['1', '5', '8'].map((digit) => ({ step: 'danger', digit }));
const others: readonly Sign[] = [
  ...[
    { step: 'breathing-colour', digit: '3' },
    { step: 'moves', digit: '5' },
    { step: 'skin', digit: '8' },
  ],
  ...[
    { step: 'head-eyes-mouth', digit: '5' },
    { step: 'belly-cord', digit: '5' },
    { step: 'limbs', digit: '7' },
  ],
];

/** The steps at which a baby may have a sign here. */
export const stepsLooked: ReadonlySet<string> = new Set([...dangers, ...others].map(({ step }) => step));

export function bornBy(chance: Chance, { danger, sign, cool }: Prevalence): Baby {
  return {
    girl: chance.is(0.5),
    hours: chance.whole(1, 6),
    weeks: chance.whole(37, 41),
    grams: chance.whole(26, 41) * 100,
    temperature: chance.is(cool) ? 36.2 : chance.whole(366, 373) / 10,
    breaths: chance.whole(36, 56),
    heart: chance.whole(112, 150),
    signs: [...(chance.is(danger) ? [chance.pick(dangers)] : []), ...others.filter(() => chance.is(sign))],
  };
}

export const opening = ({ girl, hours, weeks, grams }: Baby): string => `BABY ${girl ? 'GIRL' : 'BOY'} ${hours}H ${weeks}W ${grams}G`;

/** The words that open a question -> the step that asks it. */
const titles = new Map([...stepsLooked].map((step) => [say(published().catalogues, 'en', `ask.${step}.title`), step]));

/** The step whose question stands in a reply; undefined: of another one, or none. */
export function stepAsked(reply: string): string | undefined {
  for (const [title, step] of titles) if (new RegExp(`(?:^|[.:] )${title.replace(/[.?]/g, '\\$&')} `).test(reply)) return step;
  return undefined;
}

/** What she who looks at this baby sends in answer to a reply. */
export function answerTo(reply: string, baby: Baby, chance: Chance): string {
  if (/2 finish the check/.test(reply)) return '2';
  const step = stepAsked(reply);
  if (step !== undefined) return baby.signs.find((sign) => sign.step === step)?.digit ?? '0';
  if (/36\.8/.test(reply)) return `${baby.temperature} ${baby.breaths} ${baby.heart}`;
  if (/Second count\?/.test(reply)) return String(baby.breaths);
  if (/ 0 /.test(reply)) return '0';
  return chance.pick(['-', '1', '0']);
}
