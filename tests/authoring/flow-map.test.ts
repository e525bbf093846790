// The map of the flows that ship: every step in its place, what stands before it, and where the dangers leave it.

import { describe, expect, it } from 'vitest';
import { type FlowMap, type MapStep, mapOf } from '../../src/authoring/flow-map.ts';
import { interpret } from '../../src/clinical/interpret.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { shipped } from './changed-files.ts';
import { flowFrom } from './shipped-flow.ts';

const sourceOf = (id: string) => shipped.sources.find(({ name }) => name === `flows/${id}.yaml`)!;
const mapped = (id: string): FlowMap => mapOf(shipped.flows.find((flow) => flow.id === id)!, sourceOf(id), defaultProtocol);
const maps = shipped.flows.map(({ id }) => [id, mapped(id)] as const);
const firstDay = mapped('first-day-exam');
const step = (id: string): MapStep => firstDay.steps.find((one) => one.id === id)!;

describe.each(maps)('the map of %s', (id, map) => {
  const lines = sourceOf(id).text.split('\n');

  it('has every step in the order asked, at its line', () => {
    expect(map.steps.map((one) => one.id)).toEqual(shipped.flows.find((flow) => flow.id === id)!.steps.map((one) => one.id));
    for (const one of map.steps) {
      const line = lines[one.line - 1];
      expect(line).toBe(one.id.endsWith('-more') && line?.trim() === 'more:' ? '    more:' : `  - step: ${one.id}`);
    }
  });

  it('says what stands before each guarded step', () => {
    const flow = shipped.flows.find((one) => one.id === id)!;
    for (const [at, one] of map.steps.entries()) expect(one.guard !== null, one.id).toBe(flow.steps[at]!.onlyIf.length > 0);
  });

  it('names what opens each opened step, and that one names it too', () => {
    for (const one of map.steps)
      for (const { step: opener } of one.openedBy) expect(map.steps.find((other) => other.id === opener)!.opens).toContain(one.id);
    expect(map.steps.filter((one) => one.openedBy.length > 0).map((one) => one.id)).toEqual(
      shipped.flows
        .find((flow) => flow.id === id)!
        .steps.filter(({ opened }) => opened)
        .map((one) => one.id),
    );
  });
});

describe('what the map says of a step', () => {
  it.each([
    ['sugar', { guard: { kind: 'any', of: ['jittery', 'mother-diabetic'] }, asks: ['glucose'], openedBy: [] }],
    ['touch', { guard: 'unknown temperature', kind: 'read' }],
    ['pregnancy-more', { openedBy: [{ step: 'pregnancy', by: 'more' }], opens: ['mother-unable'], signs: 8 }],
    ['waters', { openedBy: [{ step: 'pregnancy', by: 'mark' }], asks: ['waters-broken-hours'] }],
    ['first-doses', { openedBy: [{ step: 'urgent', by: 'offer' }] }],
    ['urgent', { tells: 'urgent', guard: 'urgency is urgent', opens: ['first-doses'], asks: [] }],
    ['danger', { kind: 'mark', signs: 9, guard: null, openedBy: [] }],
  ] as const)('holds for %s', (id, says) => {
    expect(step(id)).toMatchObject(says);
  });

  it('keeps lists within lists, and drops one that holds a single condition', () => {
    const text = `flow: try\nlooks-again: yes\nsteps:\n  - step: a\n    only-if:\n      all:\n        - none: [grunting]\n        - any: [jittery]\n    mark: [restless]\n  - step: result\n    result: final\n`;
    const [first] = mapOf(flowFrom(text), { name: 'flows/try.yaml', text }, defaultProtocol).steps;
    expect(first?.guard).toEqual({ kind: 'all', of: [{ kind: 'none', of: ['grunting'] }, 'jittery'] });
  });
});

describe('where the dangers leave a step', () => {
  const exits = (id: string) => step(id).exits.map(({ of, value, to }) => `${of}=${value} ${to}`);

  it.each([
    [
      'vitals',
      [
        'temperature=severely-low urgent',
        'temperature=low urgent',
        'temperature=high urgent',
        'respiratory-rate=very-slow urgent',
        'respiratory-rate=slow urgent',
        'heart-rate=very-slow urgent',
        'heart-rate=very-fast urgent',
      ],
    ],
    ['breaths-again', ['respiratory-rate=very-slow urgent', 'respiratory-rate=slow urgent', 'respiratory-rate=fast urgent']],
    ['waters', ['waters-broken-hours=long refer']],
    ['care', []],
  ])('is found at %s', (id, says) => {
    expect(exits(id)).toEqual(says);
  });

  it('holds for every sign of the first list of dangers', () => {
    expect(step('danger').exits).toHaveLength(9);
    expect(step('danger').exits.every(({ to }) => to === 'urgent')).toBe(true);
  });

  it('is a way out for every sign that alone makes a well baby urgent at thirty hours', () => {
    for (const [id, map] of maps) {
      const flow = shipped.flows.find((one) => one.id === id)!;
      for (const one of flow.steps.filter((each) => each.kind === 'mark'))
        for (const { sets } of one.marks) {
          if (sets === null) continue;
          const { urgency } = interpret(defaultProtocol, { ageHours: 30, unlisted: 'normal', findings: { [sets.of]: sets.value } });
          const found = map.steps
            .find((each) => each.id === one.id)!
            .exits.filter((exit) => exit.of === sets.of && exit.value === sets.value);
          if (urgency === 'urgent') expect(found.map(({ to }) => to)).toEqual(['urgent']);
          if (urgency === 'refer') expect(found).toHaveLength(1);
        }
    }
  });
});
