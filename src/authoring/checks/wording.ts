// Every key that flows and protocol can make the phone say has words in the base language. A missing one would be shown as a
// bare name beside a baby. The other languages are held against the base by read-catalogue-parity.ts.

import type { Finding, Protocol } from '../../clinical/protocol.ts';
import type { Flow, MarkStep, Step } from '../../dialog/flow.ts';
import type { Catalogue } from '../../messages/catalogue.ts';
import { wholeFile } from '../diagnostic.ts';
import type { Report } from '../yaml-source.ts';

interface Needed {
  readonly key: string;
  /** What needs it, in the author's words. */
  readonly by: string;
}

export function checkWording(flows: readonly Flow[], protocol: Protocol, base: Catalogue, report: Report): void {
  const needed = [
    ...flows.flatMap((flow) => flow.steps.flatMap((step) => neededByStep(step, protocol, base))),
    ...neededByProtocol(protocol),
  ];
  for (const flow of flows) checkRegions(flow, base, report);
  const seen = new Set<string>();
  for (const { key, by } of needed) {
    if (base.messages.has(key) || seen.has(key)) continue;
    seen.add(key);
    report({
      code: 'wording/missing',
      severity: 'error',
      file: `locales/${base.tag}`,
      range: wholeFile,
      what: `There is no message "${key}", and ${by} needs it.`,
      why: 'The phone would show a bare name instead of words.',
      fix: `Add "${key}" under "messages:".`,
      related: [],
    });
  }
}

/** A quick report could not say that all of the step is normal when one of its regions has no word. */
function checkRegions(flow: Flow, base: Catalogue, report: Report): void {
  for (const step of flow.steps) {
    if (step.kind !== 'mark') continue;
    for (const region of step.regions.filter((one) => !base.regions.has(one))) {
      report({
        code: 'wording/region-without-word',
        severity: 'error',
        file: `locales/${base.tag}`,
        range: wholeFile,
        what: `No word stands for region "${region}", and step "${step.id}" of flow "${flow.id}" asks it together with others.`,
        why: 'In a quick report the step could never be called normal.',
        fix: `Add "${region}" with a word under "readings: regions:", or take it out of the step's "regions".`,
        related: [],
      });
    }
  }
}

function neededByStep(step: Step, protocol: Protocol, base: Catalogue): Needed[] {
  const by = `step "${step.id}"`;
  const own: Needed[] = ['title', 'place'].map((part) => ({ key: `ask.${step.id}.${part}`, by }));
  // The first list of a region shows how to ask for the rest; the rest has the place of its region.
  switch (step.kind) {
    case 'mark':
      return [...own, { key: `ask.${step.id}.none`, by }, ...step.marks.map((mark) => ({ key: markKey(step, mark, base), by }))];
    case 'read':
      return [
        ...own,
        ...(step.fields.length > 1
          ? step.fields.flatMap(({ of, optional }) =>
              optional
                ? []
                : [
                    { key: `fields.${of}`, by },
                    { key: `examples.${of}`, by },
                  ],
            )
          : []),
        ...step.fields.flatMap(({ of, options }) =>
          of === 'sex' || protocol.findingById.get(of)?.kind !== 'choice'
            ? []
            : options.map((option) => ({ key: labelKey(step.id, `${of}.${option}`, base), by })),
        ),
      ];
    default:
      return own;
  }
}

function markKey(step: MarkStep, mark: MarkStep['marks'][number], base: Catalogue): string {
  if (mark.sets === null) return `marks.${step.id}.${mark.opens ?? mark.id}`;
  const { of, value } = mark.sets;
  return labelKey(step.id, typeof value === 'string' ? `${of}.${value}` : of, base);
}

function labelKey(step: string, name: string, base: Catalogue): string {
  return base.messages.has(`marks.${step}.${name}`) ? `marks.${step}.${name}` : `signs.${name}`;
}

function neededByProtocol(protocol: Protocol): Needed[] {
  return [
    ...protocol.findings.flatMap(neededByFinding),
    ...protocol.classifications.map(({ id }) => ({ key: `classifications.${id}`, by: `classification "${id}"` })),
    ...protocol.advice.map(({ key }) => ({ key, by: 'the protocol' })),
  ];
}

function neededByFinding(finding: Finding): Needed[] {
  const by = `finding "${finding.id}"`;
  const danger =
    finding.danger && finding.insteadOf === undefined && finding.kind !== 'number' ? [{ key: `findings.${finding.id}`, by }] : [];
  if (finding.kind === 'sign') return [{ key: `signs.${finding.id}`, by }, ...danger];
  if (finding.kind === 'choice')
    return [...finding.options.slice(1).map((option) => ({ key: `signs.${finding.id}.${option}`, by })), ...danger];
  return [{ key: `values.${finding.id}`, by }];
}
