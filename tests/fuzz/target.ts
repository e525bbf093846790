// What is fuzzed, one file a target under targets/: how an input is drawn, and what must hold of it. An input is a list of texts
// (messages of a conversation, parts of a request, the files of a folder), so that one reducer serves all. Next: run-target.ts.

import type { Chance } from '../simulation/chance.ts';

export type Input = readonly string[];

/**
 * What became of it: taken for what it wants to be; turned away for what it says; turned away at once, because it is not even the kind
 * of thing (no YAML, no JSON, no proof). All three are fine; a throw is not. Their shares show how deep the inputs reach.
 */
export type Outcome = 'accepted' | 'refused' | 'refused-at-once';

/** Times one piece of work within an input, such as one turn of a conversation; a target that times none is timed whole. */
export type Timed = <T>(work: () => T) => T;

export interface Target {
  readonly name: string;
  /** How many of a thousand inputs are its. */
  readonly share: number;
  readonly draw: (chance: Chance) => Input;
  /** Errors: whatever does not hold of it. */
  readonly take: (input: Input, timed: Timed) => Outcome | Promise<Outcome>;
  /** Longest that a piece of work may take, in milliseconds of a processor. */
  readonly limitMilliseconds: number;
  /** True: a list that is shorter is an input as well, as a conversation is; else the texts of one have each their place. */
  readonly isList?: true;
  /** How many inputs one list counts as; 1 when left out. */
  readonly count?: (input: Input) => number;
  readonly close?: () => Promise<void>;
}

/** Longest that a turn, a reader or a webhook may take. */
export const usualLimitMilliseconds = 50;
