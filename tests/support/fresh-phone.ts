// Phones that no other test has used, so that tests can share one store. Invented numbers.

let last = 0;

export function freshPhone(): string {
  last += 1;
  return `+2547${String(process.pid % 10_000).padStart(4, '0')}${String(last).padStart(4, '0')}`;
}
