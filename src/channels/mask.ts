// The only way a phone number gets into a log. No channel logs a number in any other form. Next: fault.ts.

const SHOWN_DIGITS = 3;
const SHORTEST_SHOWN = 7;

/** The last three digits, enough to tell two callers apart; of a short number, nothing. */
export function maskPhone(phone: string): string {
  const digits = phone.replace(/\D/g, '');
  return digits.length < SHORTEST_SHOWN ? '…' : `…${digits.slice(-SHOWN_DIGITS)}`;
}
