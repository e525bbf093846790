// Natural keys and codes that no other test has used, so that tests can share one register.

let last = 0;

export function freshKey(of: string): string {
  last += 1;
  return `${of}-${process.pid}-${last}`;
}
