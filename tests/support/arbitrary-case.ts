// Any valid case, for properties: every finding with any value it may have, any age, any weights, any switches.

import fc from 'fast-check';
import { readCase } from '../../src/authoring/read-case.ts';
import type { Case, Finding, FindingValue, NumberFinding, Protocol } from '../../src/clinical/protocol.ts';

export function anyValue(finding: Finding): fc.Arbitrary<FindingValue> {
  if (finding.kind === 'sign') return fc.boolean();
  if (finding.kind === 'choice') return fc.constantFrom(...finding.options);
  const reading = anyReading(finding);
  return finding.readings === 1 ? reading : fc.oneof(reading, fc.array(reading, { minLength: 1, maxLength: finding.readings }));
}

/** Near the edges of bands more often than elsewhere: that is where meaning changes. */
export function anyReading(finding: NumberFinding): fc.Arbitrary<number> {
  const step = finding.kind === 'count' ? 1 : 0.1;
  const edges = finding.bands
    .flatMap((band) => [band.from - step, band.from, band.from + step])
    .filter((value) => value >= finding.low && value <= finding.high);
  const anywhere =
    finding.kind === 'count'
      ? fc.integer({ min: finding.low, max: finding.high })
      : fc.double({ min: finding.low, max: finding.high, noNaN: true });
  return fc.oneof(fc.constantFrom(...edges), anywhere);
}

const orNull = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(one, { nil: null });

/** Cases that contradict themselves are left out: assess refuses them. */
export function anyCase(protocol: Protocol): fc.Arbitrary<Case> {
  const findings = fc
    .uniqueArray(fc.constantFrom(...protocol.findings), { maxLength: 25 })
    .chain((chosen) => fc.tuple(...chosen.map((finding) => fc.tuple(fc.constant(finding.id), orNull(anyValue(finding))))))
    .map((pairs) => Object.fromEntries(pairs) as Record<string, FindingValue>);
  const switches = fc
    .uniqueArray(fc.constantFrom(...protocol.switches.values()), { maxLength: 3 })
    .chain((chosen) => fc.tuple(...chosen.map((one) => fc.tuple(fc.constant(one.id), fc.constantFrom(...one.options)))))
    .map((pairs) => Object.fromEntries(pairs));
  return fc
    .record({
      ageHours: orNull(
        fc.oneof(
          fc.double({ min: 0, max: 1439, noNaN: true }),
          fc.constantFrom(0, 1, 6, 24, 48, 72, 96, 120, 168, 336, 504, 720, 1008, 1439),
        ),
      ),
      sex: orNull(fc.constantFrom('girl' as const, 'boy' as const, 'not-clear' as const)),
      gestation: orNull(
        fc.oneof(
          fc.record({ weeks: fc.integer({ min: 20, max: 44 }) }),
          fc.record({ weeks: fc.integer({ min: 20, max: 44 }), days: fc.integer({ min: 0, max: 6 }) }),
        ),
      ),
      birthWeightGrams: orNull(fc.integer({ min: 300, max: 8000 })),
      weightGrams: orNull(fc.integer({ min: 300, max: 8000 })),
      unlisted: fc.constantFrom('normal' as const, 'not-assessed' as const),
      findings,
      switches,
    })
    .filter((one) => readCase(one, protocol).kind === 'case');
}
