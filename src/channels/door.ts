// What every door of the building has in common: where a message goes, where the log goes, who may not come in now.
// Nothing here knows HTTP. Next: sms/webhook.ts and ussd/webhook.ts, the two doors; caller.ts, which looks at who rings.

import type { CountryCode } from 'libphonenumber-js';
import type { Logger } from 'pino';
import type { Receive } from '../conversation/ports.ts';

export type DoorLog = Pick<Logger, 'info' | 'warn' | 'error'>;

/** Who brings messages, by the door that it comes to. */
export type Gateway = 'sms' | 'kannel' | 'smpp' | 'ussd';

export interface Door {
  readonly receive: Receive;
  readonly log: DoorLog;
  /** Read numbers without a country as numbers of this one. Without it they must be international. */
  readonly defaultCountry?: CountryCode;
  /** True: this phone has sent too much lately and is not served now. Counts the message it is asked about. */
  readonly isOverLimit?: (phone: string) => Promise<boolean>;
  /** True: this gateway has brought too much lately, from phones that may send, and is to bring the message later. Counts it. */
  readonly isGatewayOverLimit?: (gateway: Gateway) => Promise<boolean>;
}
