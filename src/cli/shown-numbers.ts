// How a figure of a plan is written: whole where it was given or must be a whole one, else with four figures and no more, since what
// it rests on is not known better.

const whole = new Intl.NumberFormat('en-US', { maximumFractionDigits: 0 });
const rough = new Intl.NumberFormat('en-US', { maximumSignificantDigits: 4 });

/** Given, or of people and machines: whole. */
export const count = (value: number): string => whole.format(value);

/** Computed: four significant digits. */
export const shown = (value: number): string => rough.format(value);

/** Of a share, with one decimal; two where it is small or close to all. */
export function percent(share: number): string {
  const hundred = 100 * share;
  const isWhole = Math.abs(hundred - Math.round(hundred)) < 1e-9;
  return `${isWhole ? Math.round(hundred) : hundred.toFixed(hundred < 1 || hundred > 99 ? 2 : 1)} %`;
}

const units = ['bytes', 'kB', 'MB', 'GB', 'TB', 'PB'] as const;

/** Decimal, as disks are sold. */
export function bytes(value: number): string {
  const place = value < 1 ? 0 : Math.min(units.length - 1, Math.floor(Math.log10(value) / 3));
  return `${new Intl.NumberFormat('en-US', { maximumSignificantDigits: 3 }).format(value / 1000 ** place)} ${units[place]}`;
}
