// Judging only the rules that a finding can trigger loses none that is met.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { candidatesIn } from '../../src/clinical/candidates.ts';
import { layCase } from '../../src/clinical/lay-case.ts';
import { programFor } from '../../src/clinical/program.ts';
import { metOf, verdictOn } from '../../src/clinical/verdict.ts';
import { anyCase } from '../support/arbitrary-case.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

describe('the candidates of a case', () => {
  it('hold every rule that is met when all are judged', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), (aCase) => {
        const program = programFor(defaultProtocol, aCase.switches);
        const facts = layCase(defaultProtocol, program.slots, aCase);
        const candidates = new Set(candidatesIn(program.candidates, facts));
        const lost: string[] = [];
        for (const [place, { of, rule }] of program.rules.entries()) {
          if (rule.when.holds(facts) && !candidates.has(place)) lost.push(`${of.rule.id} by ${rule.rows.join(' ')}`);
          // After its last rule, so that those which ask whether it was given are judged as they would be.
          if (program.rules[place + 1]?.of === of) continue;
          const verdict = verdictOn(of, metOf(of.rules, facts), facts);
          if (verdict !== undefined) facts.given.push(verdict);
        }
        expect(lost).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('are few for a well baby', () => {
    const program = programFor(defaultProtocol, undefined);
    const facts = layCase(defaultProtocol, program.slots, {
      ageHours: 30,
      birthWeightGrams: 3200,
      findings: { temperature: 36.8 },
      unlisted: 'normal',
    });
    expect(candidatesIn(program.candidates, facts).length).toBeLessThan(12);
  });
});
