// Judging only the classifications that a finding can trigger loses none of them.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { candidatesIn } from '../../src/clinical/candidates.ts';
import { layCase } from '../../src/clinical/lay-case.ts';
import { programFor } from '../../src/clinical/program.ts';
import { judgeClassification } from '../../src/clinical/verdict.ts';
import { anyCase } from '../support/arbitrary-case.ts';
import { defaultProtocol } from '../support/default-protocol.ts';

describe('the candidates of a case', () => {
  it('hold every classification that is given when all are judged', () => {
    fc.assert(
      fc.property(anyCase(defaultProtocol), (aCase) => {
        const program = programFor(defaultProtocol, aCase.switches);
        const facts = layCase(defaultProtocol, program.slots, aCase);
        const candidates = new Set(candidatesIn(program.candidates, facts));
        const lost: string[] = [];
        for (const [place, classification] of program.classifications.entries()) {
          const verdict = judgeClassification(classification, facts);
          if (verdict === undefined) continue;
          facts.given.push(verdict);
          if (!candidates.has(place)) lost.push(classification.rule.id);
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
    expect(candidatesIn(program.candidates, facts).length).toBeLessThan(15);
  });
});
