// Settings from the environment, read once and checked whole: a wrong one stops the start with its remedy.
// Development opens doors that production keeps shut, and says so.

import { join } from 'node:path';
import { z } from 'zod';
import { readSealingKeys, type SealingKeys } from '../register/sealing/keys.ts';

const yes = z
  .enum(['1', '0'])
  .default('0')
  .transform((value) => value === '1');

const environment = z.object({
  NODE_ENV: z.string().optional(),
  PORT: z.coerce.number().int().min(0).max(65535).default(3000),
  HOST: z.string().default('127.0.0.1'),
  REDIS_URL: z.url().optional(),
  DATABASE_URL: z.url().optional(),
  PIPIT_DATA: z.string().default('.pipit'),
  PIPIT_ALLOW_EMBEDDED: yes,
  PIPIT_FLOWS: z.string().optional(),
  PIPIT_LOCALES: z.string().optional(),
  PIPIT_ROSTER: z.string().optional(),
  PIPIT_ALLOW_DRAFTS: yes,
  /** Whether `pipit serve` does what is due as well; 0 where `pipit work` does. */
  PIPIT_WORK: z
    .enum(['1', '0'])
    .default('1')
    .transform((value) => value === '1'),
  PIPIT_DEVELOPMENT: yes,
  PIPIT_COUNTRY: z.string().length(2).optional(),
  PIPIT_SCREEN: z.coerce.number().int().min(60).max(182).default(182),
  PIPIT_SCREEN_16_BIT: z.coerce.number().int().min(30).max(80).default(70),
  PUBLIC_URL: z.url().optional(),
  SMS_ACCOUNT: z.string().optional(),
  SMS_TOKEN: z.string().optional(),
  SMS_FROM: z.string().optional(),
  SMS_API: z.url().default('https://api.twilio.com'),
  USSD_SECRET: z.string().min(16).optional(),
  /** So long after its answer the same text of a phone is the same message; 0: only its id says so. */
  PIPIT_SAME_TEXT_SECONDS: z.coerce.number().min(0).max(60).default(6),
  /** What one phone may send in a minute. */
  PIPIT_MESSAGES_A_MINUTE: z.coerce.number().int().min(20).max(1000).default(60),
  /** Names and card numbers stand sealed with them in the register. */
  PIPIT_KEYS: z
    .string()
    .optional()
    .transform((text, context): SealingKeys | undefined => {
      if (text === undefined) return undefined;
      const read = readSealingKeys(text);
      if (read.kind === 'keys') return read.keys;
      context.addIssue({ code: 'custom', message: read.why });
      return z.NEVER;
    }),
  /** Opens /metrics for who sends it. */
  PIPIT_METRICS_TOKEN: z.string().min(16).optional(),
});

export type Config = Readonly<z.infer<typeof environment>> & {
  readonly flows: string;
  readonly locales: string;
  /** Folder that an empty register gets its roster from. */
  readonly roster: string;
  readonly isProduction: boolean;
};

export type ConfigOutcome =
  | { readonly kind: 'config'; readonly config: Config }
  | { readonly kind: 'refused'; readonly faults: readonly string[] };

/**
 * The settings, or every fault in them, each with what to set.
 *
 * Takes    root: the folder of the package, where flows/ and locales/ stand.
 */
export function readConfig(env: Readonly<Record<string, string | undefined>>, root: string): ConfigOutcome {
  const given = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== undefined && value !== ''));
  const parsed = environment.safeParse(given);
  if (!parsed.success) {
    return {
      kind: 'refused',
      faults: parsed.error.issues.map(
        (issue) => `${issue.path.join('.')}: ${issue.message}. Set it anew, or leave it out for the default.`,
      ),
    };
  }
  const values = parsed.data;
  const flows = values.PIPIT_FLOWS ?? join(root, 'flows');
  return {
    kind: 'config',
    config: {
      ...values,
      flows,
      locales: values.PIPIT_LOCALES ?? join(root, 'locales'),
      roster: values.PIPIT_ROSTER ?? join(flows, 'demo'),
      isProduction: values.NODE_ENV === 'production',
    },
  };
}

/** Over TLS, or never leaving this machine. */
function isKeptFromOthers(address: string): boolean {
  const { protocol, hostname } = new URL(address);
  return protocol === 'https:' || ['localhost', '127.0.0.1', '[::1]'].includes(hostname);
}

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
  if (config.SMS_TOKEN === undefined || config.SMS_ACCOUNT === undefined || config.SMS_FROM === undefined) {
    faults.push('SMS_ACCOUNT, SMS_TOKEN and SMS_FROM are not all set. They are the gateway account, its token and your number.');
  }
  return faults;
}
