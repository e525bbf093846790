// A number line and what its stretches mean: lines, bands, the limits and switches that move them. Only types.
// Next: bands.ts (where the bands lie), readings.ts (which reading stands).

/** A line on the scale. `over`: the value itself lies below the line; otherwise it lies above. */
export interface Line {
  readonly value: number;
  readonly over: boolean;
}

/** One stretch of a number line. `from` is included unless `openFrom`; `to` is excluded unless `closedTo`. */
export interface Band {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly openFrom: boolean;
  readonly closedTo: boolean;
  readonly routine: boolean;
  readonly rows: readonly string[];
  /** The limit that it begins at, when a switch can move it. */
  readonly limit?: string;
}

/** What is measured: its plausible range, its readings and its bands. */
export interface NumberLine {
  readonly id: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  /** Decimals that a reading is given with; 0 for counts. */
  readonly decimals: number;
  /** True: a reading is rounded to those decimals before it is judged. */
  readonly judgedRounded: boolean;
  /** How many readings may be held, oldest first; 1 when the finding does not repeat. */
  readonly readings: number;
  /** Bands that stand once read, whatever is read later. */
  readonly holds: readonly string[];
  /** Band -> the band that must be read before it no longer stands. */
  readonly holdsUntil: Readonly<Record<string, string>>;
  /** As they lie under the default switches. */
  readonly bands: readonly Band[];
}

/** A line that a switch can move: the value of the first choice that holds, else the default. */
export interface Limit {
  readonly id: string;
  readonly line: Line;
  readonly moved: readonly { readonly switch: string; readonly option: string; readonly line: Line }[];
}

export interface Switch {
  readonly id: string;
  /** The first option is the one that holds: chosen by the programme, or else the guideline's. */
  readonly options: readonly string[];
  /** The option of the guideline itself. */
  readonly guideline: string;
  /** Row of the conflict register that it settles. */
  readonly row: string;
}
