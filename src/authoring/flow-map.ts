// The map of a flow: its steps in the order of the file, what stands before each, what each asks, what opens it, and where the dangers
// leave it. Only data, from the flow as it was read and the file that it was read from. Drawn by src/console/map/flow-map.tsx.

import type { Protocol } from '../clinical/protocol.ts';
import type { Flow, Step } from '../dialog/flow.ts';
import { type Exit, exitsOf } from './danger-exits.ts';
import { type Said, stepPlaces } from './flow-places.ts';
import type { SourceFile } from './yaml-source.ts';

export interface FlowMap {
  readonly flow: string;
  readonly file: string;
  readonly steps: readonly MapStep[];
}

export interface MapStep {
  readonly id: string;
  readonly kind: Step['kind'];
  /** Of the file, from 1. */
  readonly line: number;
  /** What must hold for it to be asked; null: always asked, unless it waits to be opened. */
  readonly guard: Said | null;
  /** The findings and fields that its answer sets, each once, in the order asked. */
  readonly asks: readonly string[];
  /** How many digits are offered, without the one that opens the rest. */
  readonly signs: number;
  readonly exits: readonly Exit[];
  /** Not asked unless one of these opens it; empty: asked in its turn. */
  readonly openedBy: readonly Opening[];
  /** The steps that it opens, each once. */
  readonly opens: readonly string[];
  /** Of a result. */
  readonly tells?: 'urgent' | 'final';
}

export interface Opening {
  readonly step: string;
  /** `more`: by the digit for the rest of a region; `offer`: by the answer to a result. */
  readonly by: 'mark' | 'more' | 'offer';
}

export function mapOf(flow: Flow, source: SourceFile, protocol: Protocol): FlowMap {
  const places = stepPlaces(source);
  const steps = flow.steps.map((step): MapStep => {
    const place = places.get(step.id);
    return {
      id: step.id,
      kind: step.kind,
      line: place?.line ?? 1,
      guard: place?.guard ?? null,
      asks: [...new Set(askedIn(step))],
      signs: step.kind === 'mark' ? step.marks.length : 0,
      exits: exitsOf(step, protocol),
      openedBy: openersOf(step.id, flow.steps),
      opens: [...new Set(openingsIn(step).map(({ opens }) => opens))],
      ...(step.kind === 'result' ? { tells: step.of } : {}),
    };
  });
  return { flow: flow.id, file: source.name, steps };
}

/** Each once, though several of its marks may open the step. */
function openersOf(id: string, steps: readonly Step[]): Opening[] {
  return steps.flatMap((step) => {
    const by = new Set(openingsIn(step).flatMap((opening) => (opening.opens === id ? opening.by : [])));
    return [...by].map((one) => ({ step: step.id, by: one }));
  });
}

function openingsIn(step: Step): { readonly opens: string; readonly by: Opening['by'] }[] {
  if (step.kind === 'result') return step.offers === undefined ? [] : [{ opens: step.offers, by: 'offer' }];
  if (step.kind !== 'mark') return [];
  const marks = step.marks.flatMap(({ opens }) => (opens === undefined ? [] : [{ opens, by: 'mark' as const }]));
  return step.more === undefined ? marks : [...marks, { opens: step.more, by: 'more' }];
}

function askedIn(step: Step): string[] {
  switch (step.kind) {
    case 'read':
      return step.fields.map(({ of }) => of);
    case 'again':
      return [step.of];
    case 'mark':
      return step.marks.flatMap(({ sets }) => sets?.of ?? []);
    case 'result':
      return [];
  }
}
