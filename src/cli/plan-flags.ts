// The flags of `pipit simulate`, looked at before anything is computed. A wrong one is refused in a line that says what to write.
// Next: simulate.ts.

export interface SimulateFlags {
  readonly births: number;
  readonly contacts?: number;
  readonly peak?: number;
  readonly languages?: string;
  readonly channels?: string;
  readonly prevalence?: string;
  readonly level?: number;
  readonly within?: number;
  readonly busy?: number;
  readonly desks: number;
  readonly priceIn?: number;
  readonly priceOut?: number;
  readonly priceCall?: number;
  readonly currency?: string;
  readonly walks: number;
  readonly seed: number;
  readonly secondsPerScreen: number;
  readonly secondsPerCall: number;
  readonly format: string;
}

/** More births than the world has, or desks than births, is a slip of the hand. */
const most = { births: 1_000_000_000, contacts: 100, walks: 100_000, minutes: 10_080 } as const;

/** Errors: the first flag that cannot be used. */
export function checkFlags(flags: SimulateFlags): void {
  within('births', flags.births, 1, most.births, 'births a year, such as --births 1500000');
  within('contacts', flags.contacts, 1, most.contacts, 'examinations of each baby, such as --contacts 4');
  within('peak', flags.peak, 1, 100, 'the busiest hour over the mean one, such as --peak 3');
  within('level', flags.level, 0.01, 0.9999, 'a share, such as --level 0.95');
  within('within', flags.within, 0, most.minutes, 'minutes, such as --within 5');
  within('busy', flags.busy, 0.01, most.minutes, 'minutes, such as --busy 20');
  for (const [name, value] of [
    ['price-in', flags.priceIn],
    ['price-out', flags.priceOut],
    ['price-call', flags.priceCall],
  ] as const)
    within(name, value, 0, 1_000_000, 'an amount, such as 0.02');
  whole('desks', flags.desks, flags.births);
  whole('walks', flags.walks, most.walks);
  whole('seconds-per-screen', flags.secondsPerScreen, most.minutes);
  whole('seconds-per-call', flags.secondsPerCall, most.minutes);
  if (!Number.isSafeInteger(flags.seed) || flags.seed < 0) throw new Error('--seed must be a whole number, 0 or more.');
  if (flags.format !== 'text' && flags.format !== 'json')
    throw new Error(`No format "${flags.format}". Write --format text or --format json.`);
}

function within(name: string, value: number | undefined, low: number, high: number, what: string): void {
  if (value === undefined || (value >= low && value <= high)) return;
  throw new Error(`--${name} must be from ${low} to ${high}. Give ${what}.`);
}

function whole(name: string, value: number, high: number): void {
  if (Number.isSafeInteger(value) && value > 0 && value <= high) return;
  throw new Error(`--${name} must be a whole number from 1 to ${high}.`);
}

/**
 * What `en:0.6,hi:0.4` says: the names in their order, each with its share. A single name is all of it.
 *
 * Errors   a name that is not among `known`, or twice there; shares that do not add up to 1.
 */
export function readShares(flag: string, written: string, known: readonly string[]): ReadonlyMap<string, number> {
  const parts = written.split(',').map((part) => part.trim());
  const shares = new Map<string, number>();
  for (const part of parts) {
    const [name = '', said, ...more] = part.split(':');
    if (!known.includes(name)) throw new Error(`--${flag} names "${name}". Give one of: ${known.join(', ')}.`);
    if (shares.has(name)) throw new Error(`--${flag} names "${name}" twice. Give its whole share once.`);
    const share = said === undefined && parts.length === 1 ? 1 : Number(said === '' ? Number.NaN : said);
    if (more.length > 0 || !(share > 0 && share <= 1))
      throw new Error(`--${flag} gives "${part}". Write a share above 0 and up to 1, such as ${known[0]}:0.6.`);
    shares.set(name, share);
  }
  const total = [...shares.values()].reduce((sum, share) => sum + share, 0);
  if (Math.abs(total - 1) > 1e-6) throw new Error(`The shares of --${flag} add up to ${Number(total.toFixed(6))}. Make them add up to 1.`);
  return shares;
}
