// What is prepared while the switches of a programme are set in one way, and kept for every other way in which the switches that it
// read are set alike: most of a protocol reads no switch at all. Next: program.ts.

import type { ChosenOption } from './bands.ts';

interface Under<Prepared> {
  /** The switches that were read, and how they were set. */
  readonly options: readonly (readonly [id: string, option: string | undefined])[];
  readonly prepared: Prepared;
}

/** By what it was prepared from. */
export type PreparedUnder<From, Prepared> = Map<From, readonly Under<Prepared>[]>;

export class Choices {
  private readonly chosen: ChosenOption;
  /** What is read by what is being prepared now; null while nothing is. */
  private read: Map<string, string | undefined> | null = null;

  constructor(chosen: ChosenOption) {
    this.chosen = chosen;
  }

  /** Errors   when nothing is being prepared: what rests on the answer would be kept for programmes that chose otherwise. */
  readonly optionOf: ChosenOption = (id) => {
    if (this.read === null) throw new Error(`The switch "${id}" is read while a case is judged. Read it where the condition is prepared.`);
    const option = this.chosen(id);
    this.read.set(id, option);
    return option;
  };

  /** What is known from switches that were set alike; else what `make` makes of it. One may be made inside another. */
  once<From, Prepared>(known: PreparedUnder<From, Prepared>, from: From, make: () => Prepared): Prepared {
    const before = known.get(from) ?? [];
    const same = before.find(({ options }) => options.every(([id, option]) => this.chosen(id) === option));
    const found = same ?? this.make(make);
    if (same === undefined) known.set(from, [...before, found]);
    for (const [id, option] of found.options) this.read?.set(id, option);
    return found.prepared;
  }

  private make<Prepared>(make: () => Prepared): Under<Prepared> {
    const outer = this.read;
    const own = new Map<string, string | undefined>();
    this.read = own;
    try {
      const prepared = make();
      return { options: [...own], prepared };
    } finally {
      this.read = outer;
    }
  }
}
