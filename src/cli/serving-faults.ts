// What must be set before phones may be served. Development opens doors that production keeps shut, and says so.
// Next: gateway-faults.ts.

import type { Config } from './config.ts';
import { faultsOfGateways } from './gateway-faults.ts';

/** What must be set before phones may be served, each fault with its remedy. Development needs none of it. */
export function faultsOfServing(config: Config): string[] {
  const faults: string[] = [];
  if (config.isProduction) {
    if (config.PIPIT_DEVELOPMENT)
      faults.push('PIPIT_DEVELOPMENT=1 leaves the doors open and is refused when NODE_ENV=production. Unset one of the two.');
    if (config.DATABASE_URL === undefined && !config.PIPIT_ALLOW_EMBEDDED) {
      faults.push(
        'DATABASE_URL is not set. The embedded database does not survive a power cut; set DATABASE_URL, or PIPIT_ALLOW_EMBEDDED=1 for one desk.',
      );
    }
    if (config.PIPIT_KEYS === undefined) {
      faults.push(
        'PIPIT_KEYS is not set. Names and card numbers would stand readable in the register and in its copies: set PIPIT_KEYS=ID:KEY, such as 2026a:$(openssl rand -base64 32), and keep it apart from the copies.',
      );
    }
    if (config.PUBLIC_URL !== undefined && !isKeptFromOthers(config.PUBLIC_URL)) {
      faults.push('PUBLIC_URL is plain http. What workers text and who signs in would be readable on the way: set the https address.');
    }
  }
  if (config.PIPIT_DEVELOPMENT) return faults;
  if (config.PUBLIC_URL === undefined)
    faults.push('PUBLIC_URL is not set. Signatures are checked against it: set it to the address that the gateway calls.');
  faults.push(...faultsOfGateways(config));
  return faults;
}

/** Over TLS, or never leaving this machine. */
function isKeptFromOthers(address: string): boolean {
  const { protocol, hostname } = new URL(address);
  return protocol === 'https:' || ['localhost', '127.0.0.1', '[::1]'].includes(hostname);
}
