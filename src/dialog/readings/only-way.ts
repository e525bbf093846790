// Values sent without the marks that part them, from a keypad that has no point or no space: 36.8*44*132, 36*8*44*132,
// 36 8 44 132, 1 04 30 39 3100. Every way to cut the message is tried against what each field can be; only a message that
// can be cut in one way is read.

export interface Ways {
  /** The values in order, when there is exactly one way. */
  readonly only: readonly string[] | null;
  readonly count: number;
}

export interface Slot {
  /** Whether this is a value of it that needs no asking back. */
  readonly takes: (value: string) => boolean;
  /** Whether these digits and those after a point can be one value of it. */
  readonly takesPoint: (whole: string, fraction: string) => boolean;
}

/** Digits that are cut apart in a message of one piece, loosest first; a tighter one beside it is a point. */
const parting = ['*', ',', '/', '.'];

/** The parts of a message: its pieces, or what stands between the parting marks of its only piece. */
export function partsOf(pieces: readonly string[]): readonly string[] {
  const [only = ''] = pieces;
  if (pieces.length !== 1) return pieces;
  const mark = parting.find((one) => only.includes(one));
  return mark === undefined ? pieces : only.split(mark).filter((part) => part !== '');
}

/** Takes slots: the open fields in order. Values fill the first of them, each from one part or from two with a point between. */
export function onlyWay(parts: readonly string[], slots: readonly Slot[]): Ways {
  if (parts.length > 2 * slots.length) return { only: null, count: 0 };
  const found: (readonly string[])[] = [];
  const cut = (at: number, values: readonly string[]): void => {
    if (at === parts.length) {
      found.push(values);
      return;
    }
    const slot = slots[values.length];
    const [one = '', two = ''] = parts.slice(at, at + 2);
    if (slot === undefined) return;
    if (slot.takes(one)) cut(at + 1, [...values, one]);
    const pointed = `${one}.${two}`;
    if (/^\d+$/.test(one) && /^\d+$/.test(two) && slot.takesPoint(one, two) && slot.takes(pointed)) cut(at + 2, [...values, pointed]);
  };
  cut(0, []);
  return { only: found.length === 1 ? (found[0] ?? null) : null, count: found.length };
}
