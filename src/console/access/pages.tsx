// Signing in and the account's own page. Who is let in is gate.ts.

import type { VNode } from 'preact';
import { hashPassword, isPassword, shortestPassword } from '../../conversation/password.ts';
import { type Answer, everyone, type Route, root, type Visit } from '../route.ts';
import type { Say } from '../words.ts';

export function SignIn({ say, problem, to }: { readonly say: Say; readonly problem?: string | undefined; readonly to: string }): VNode {
  return (
    <form class="narrow" method="post" action={`${root}/sign-in`}>
      {problem === undefined ? null : (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <input type="hidden" name="to" value={to} />
      <label>
        {say('access.name')}
        <input name="name" autocomplete="username" required autocapitalize="none" />
      </label>
      <label>
        {say('access.password')}
        <input name="password" type="password" autocomplete="current-password" required />
      </label>
      <button type="submit">{say('access.go')}</button>
    </form>
  );
}

function ownAccount({ say, formToken }: Visit, said?: { readonly text: string; readonly isProblem: boolean }): Answer {
  const body = (
    <form class="narrow" method="post" action={`${root}/account`}>
      {said === undefined ? null : (
        <p class={said.isProblem ? 'problem' : 'done'} role="status">
          {said.text}
        </p>
      )}
      <input type="hidden" name="token" value={formToken} />
      <label>
        {say('access.now')}
        <input name="now" type="password" autocomplete="current-password" required />
      </label>
      <label>
        {say('access.new')}
        <input name="new" type="password" autocomplete="new-password" minLength={shortestPassword} required />
      </label>
      <button type="submit">{say('access.change')}</button>
    </form>
  );
  return { kind: 'page', title: say('nav.account'), body };
}

async function changePassword(visit: Visit): Promise<Answer> {
  const { account, form, parts, say } = visit;
  const next = form.new ?? '';
  if (next.length < shortestPassword) return ownAccount(visit, { text: say('access.short'), isProblem: true });
  const stored = await parts.accounts.find(account.name);
  const isRight = await isPassword(form.now ?? '', stored?.passwordHash ?? null);
  await parts.accounts.noteTry(account.name, isRight, parts.now());
  if (!isRight) return ownAccount(visit, { text: say('access.wrong'), isProblem: true });
  await parts.accounts.setPassword(account.name, await hashPassword(next), parts.now());
  return ownAccount(visit, { text: say('access.changed'), isProblem: false });
}

export const accountRoutes: readonly Route[] = [
  { method: 'get', path: '/account', roles: everyone, answer: (visit) => ownAccount(visit) },
  { method: 'post', path: '/account', roles: everyone, answer: changePassword },
];
