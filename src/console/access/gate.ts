// Who is at the door of the console: the cookie's session, and whether a post comes from our own page. Signing in counts wrong tries
// and takes as long for a name that there is not. Next: src/conversation/password.ts, and src/register/accounts.ts for what is kept.

import { timingSafeEqual } from 'node:crypto';
import { parse, serialize } from 'cookie';
import type { AccountSession } from '../../conversation/accounts.ts';
import { isPassword } from '../../conversation/password.ts';
import type { ConsoleParts } from '../ports.ts';
import { root } from '../route.ts';

const cookieName = 'pipit_console';
type GateParts = Pick<ConsoleParts, 'accounts' | 'now' | 'newToken' | 'isSecure'>;

export type SignedIn =
  | { readonly kind: 'in'; readonly cookie: string }
  | { readonly kind: 'wrong' }
  | { readonly kind: 'waits'; readonly minutes: number };

export async function signIn(name: string, password: string, parts: GateParts): Promise<SignedIn> {
  const now = parts.now();
  const account = await parts.accounts.find(name);
  if (account !== null && account.waitsUntil > now) return { kind: 'waits', minutes: Math.ceil((account.waitsUntil - now) / 60_000) };
  const isRight = await isPassword(password, account?.passwordHash ?? null);
  if (account !== null) await parts.accounts.noteTry(name, isRight, now);
  if (account === null || !isRight) return { kind: 'wrong' };
  const token = parts.newToken();
  await parts.accounts.begin(name, token, parts.newToken(), now);
  return { kind: 'in', cookie: cookieOf(token, parts) };
}

/** Null: nobody is signed in. */
export async function sessionOf(
  cookies: string | undefined,
  parts: GateParts,
): Promise<(AccountSession & { readonly token: string }) | null> {
  const token = parse(cookies ?? '')[cookieName];
  if (token === undefined || token === '') return null;
  const session = await parts.accounts.session(token, parts.now());
  return session === null ? null : { ...session, token };
}

/** True: the post carries what only our own page knows. */
export function isFromOurPage(session: AccountSession, given: string | undefined): boolean {
  const [own, sent] = [Buffer.from(session.formToken), Buffer.from(given ?? '')];
  return own.length === sent.length && timingSafeEqual(own, sent);
}

export function noCookie(parts: Pick<GateParts, 'isSecure'>): string {
  return cookieOf('', parts, 0);
}

function cookieOf(token: string, { isSecure }: Pick<GateParts, 'isSecure'>, maxAge?: number): string {
  return serialize(cookieName, token, {
    httpOnly: true,
    sameSite: 'strict',
    secure: isSecure,
    path: root,
    ...(maxAge === undefined ? {} : { maxAge }),
  });
}
