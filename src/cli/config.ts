// Settings from the environment, read once and checked whole: a wrong one stops the start with its remedy.
// Next: serving-faults.ts, what must be set before phones are served.

import { join } from 'node:path';
import { z } from 'zod';
import { usualPinMinutes } from '../conversation/pin/pass-pin.ts';
import { readSealingKeys, type SealingKeys } from '../register/sealing/keys.ts';

const yes = z
  .enum(['1', '0'])
  .default('0')
  .transform((value) => value === '1');

const yesByDefault = z
  .enum(['1', '0'])
  .default('1')
  .transform((value) => value === '1');

const isRedisUrl = (text: string): boolean => URL.canParse(text) && /^rediss?:$/.test(new URL(text).protocol);

const environment = z.object({
  NODE_ENV: z.string().optional(),
  PORT: z.coerce.number().int().min(0).max(65535).default(3000),
  HOST: z.string().default('127.0.0.1'),
  REDIS_URL: z
    .string()
    .refine(
      (list) => list.split(',').every(isRedisUrl),
      'is no redis://host:port, nor several with commas, of the nodes of a Redis Cluster',
    )
    .optional(),
  DATABASE_URL: z.url().optional(),
  PIPIT_DATA: z.string().default('.pipit'),
  PIPIT_ALLOW_EMBEDDED: yes,
  PIPIT_FLOWS: z.string().optional(),
  PIPIT_LOCALES: z.string().optional(),
  PIPIT_ROSTER: z.string().optional(),
  PIPIT_ALLOW_DRAFTS: yes,
  /** Whether `pipit serve` does what is due as well; 0 where `pipit work` does. */
  PIPIT_WORK: yesByDefault,
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
  /** So long a phone may be silent before a person with a PIN is asked for it. */
  PIPIT_PIN_MINUTES: z.coerce.number().min(1).max(1440).default(usualPinMinutes),
  /** Kannel's sendsms address; texts go out through it. */
  PIPIT_KANNEL_URL: z.url({ protocol: /^https?$/ }).optional(),
  PIPIT_KANNEL_USER: z.string().optional(),
  PIPIT_KANNEL_PASSWORD: z.string().optional(),
  /** What Kannel shows us. */
  PIPIT_KANNEL_SECRET: z.string().min(16).optional(),
  /** Where Kannel reaches us with delivery reports; PUBLIC_URL when left out. */
  PIPIT_KANNEL_REACHES: z.url({ protocol: /^https?$/ }).optional(),
  /** The centre that SMPP is spoken with: smpp://host:2775, or ssmpp://host:3550 over TLS. */
  PIPIT_SMPP_URL: z.url({ protocol: /^ss?mpp$|^smpp$/ }).optional(),
  PIPIT_SMPP_ID: z.string().max(15).optional(),
  PIPIT_SMPP_PASSWORD: z.string().optional(),
  PIPIT_SMPP_TYPE: z.string().max(12).default(''),
  /** Whether `pipit serve` takes messages from the centre as well; 0 where another process does. */
  PIPIT_SMPP_RECEIVES: yesByDefault,
  /** Texts that the centre may have without having answered. */
  PIPIT_SMPP_WINDOW: z.coerce.number().int().min(1).max(1000).default(10),
  /** Texts that each process gives the gateway in a second. */
  PIPIT_TEXTS_A_SECOND: z.coerce.number().int().min(1).max(1000).default(20),
  /** Messages of Kannel, or of the centre, that each process answers at a time. */
  PIPIT_MESSAGES_AT_A_TIME: z.coerce.number().int().min(1).max(10_000).default(100),
  /** 1 lets texts cross a network unencrypted, where a tunnel does it. */
  PIPIT_ALLOW_PLAIN_GATEWAY: yes,
  /** What one phone may send in a minute. */
  PIPIT_MESSAGES_A_MINUTE: z.coerce.number().int().min(20).max(1000).default(60),
  /** What one gateway may bring in a second, to all processes together. */
  PIPIT_MESSAGES_A_SECOND: z.coerce.number().int().min(1).max(100_000).default(200),
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
