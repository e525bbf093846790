// Lengths of time in ISO 8601, as the protocol writes them (PT30M, PT12H, P2D): compared, and made from hours.

const duration = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?$/;

/** Whole minutes. Takes only days, hours and minutes; anything else is not written in a protocol that was read. */
export function minutesOf(iso: string): number {
  const [, days = '0', hours = '0', minutes = '0'] = duration.exec(iso) ?? [];
  return (Number(days) * 24 + Number(hours)) * 60 + Number(minutes);
}

/** PT17H30M. Takes hours >= 0; parts of a minute are dropped. */
export function fromHours(hours: number): string {
  const minutes = Math.floor(Number((hours * 60).toFixed(6)));
  const whole = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (whole === 0) return `PT${rest}M`;
  return rest === 0 ? `PT${whole}H` : `PT${whole}H${rest}M`;
}

/** The shorter of two; undefined is none. */
export function shorter(one: string | undefined, other: string | undefined): string | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  return minutesOf(other) < minutesOf(one) ? other : one;
}
