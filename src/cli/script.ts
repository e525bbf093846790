// A conversation written down: what is texted or keyed, and what must come back. Read by people, run by `pipit phone
// --script` and by the tests. Next: play-script.ts.

import { parse } from 'yaml';
import { z } from 'zod';

const fragments = z.array(z.string());

const checks = {
  /** The reply, to the letter (SMS). */
  reply: z.string().optional(),
  /** Parts that the reply must have, spaces and lines apart. */
  has: fragments.optional(),
  lacks: fragments.optional(),
  /** Segments of the SMS reply. */
  segments: z.number().int().optional(),
};

/** E.164, in quotes so that the plus stays. */
const phone = z.templateLiteral(['+', z.string().regex(/^\d{6,15}$/)]);

const act = z.union([
  z.strictObject({ send: z.string(), ...checks }),
  /** A USSD call is dialled; `drop` before it hung up the last one. On an SMS phone nothing happens. */
  z.strictObject({ dial: z.literal('again'), ...checks }),
  z.strictObject({ switch: z.enum(['sms', 'ussd']), ...checks }),
  /** A text of the nurse whose number is rung for the worker's facility, or of anybody on the roster. */
  z.strictObject({ nurse: z.string(), ...checks }),
  z.strictObject({ from: phone, send: z.string(), ...checks }),
]);

/** Texts that reached the nurse, the worker or anybody else since the last look. */
const look = z.union([
  z.strictObject({ 'nurse-got': fragments }),
  z.strictObject({ 'worker-got': fragments }),
  z.strictObject({ 'nurse-got-nothing': z.literal(true) }),
  z.strictObject({ 'got-by': phone, has: fragments.optional(), lacks: fragments.optional() }),
  z.strictObject({ 'got-by': phone, nothing: z.literal(true) }),
]);

const turn = z.union([act, look, z.strictObject({ wait: z.string().regex(/^P(\d+D)?(T(\d+H)?(\d+M)?)?$/) })]);

const script = z.strictObject({
  title: z.string(),
  as: z.string(),
  at: z.iso.datetime({ offset: true }),
  /** Left out: the conversation reads the same on both. */
  channel: z.enum(['sms', 'ussd']).optional(),
  /** Why it runs on one channel only. */
  because: z.string().optional(),
  turns: z.array(turn).min(1),
});

export type Script = z.infer<typeof script>;
export type ScriptTurn = Script['turns'][number];
export type ScriptAct = z.infer<typeof act>;
export type ScriptLook = z.infer<typeof look>;

/** Errors: an Error that names the file, the path in it, and what is wrong. */
export function readScript(name: string, text: string): Script {
  const parsed = script.safeParse(parse(text));
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw new Error(
    `${name}: ${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'not a conversation'}. See tests/conversations for how one is written.`,
  );
}
