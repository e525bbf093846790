// What a page of the console is: a path, who may open it, and a function from a visit to an answer. Knows no HTTP server.
// Next: console.ts, which serves them; page.tsx, what stands around each.

import type { VNode } from 'preact';
import type { Account, AccountRole } from '../conversation/accounts.ts';
import type { ConsoleParts } from './ports.ts';
import type { Say } from './words.ts';

export interface Visit {
  readonly account: Account;
  /** Facilities that the account may see; null: all. */
  readonly facilities: readonly string[] | null;
  /** Stands in every form as `token`, and in the header `x-form-token` of every fetch that posts. */
  readonly formToken: string;
  readonly say: Say;
  readonly parts: ConsoleParts;
  /** Of the path: `/babies/:id`. */
  readonly params: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, string>>;
  /** Fields of the form or JSON that was posted; of a field sent twice the last. */
  readonly form: Readonly<Record<string, string>>;
}

export type Answer =
  | {
      readonly kind: 'page';
      readonly title: string;
      readonly body: VNode;
      readonly status?: number;
      /** Scripts of src/console/client that the page loads, without ending. */
      readonly scripts?: readonly string[];
    }
  /** A part of a page, for a script that puts it in place. */
  | { readonly kind: 'part'; readonly body: VNode }
  | { readonly kind: 'json'; readonly value: unknown; readonly status?: number }
  /** After a form was taken: another page, below the console's own path. */
  | { readonly kind: 'to'; readonly path: string };

export interface Route {
  readonly method: 'get' | 'post';
  /** Below `/console`. */
  readonly path: string;
  readonly roles: readonly AccountRole[];
  /** True: what it shows or changes holds for every facility, and only who sees all of them may open it. */
  readonly ofAll?: boolean;
  readonly answer: (visit: Visit) => Promise<Answer> | Answer;
}

export const everyone: readonly AccountRole[] = ['nurse', 'coordinator'];
export const coordinators: readonly AccountRole[] = ['coordinator'];

/** Who may open what holds for the whole programme: its files, its roster, who did what. */
export const coordinatorsOfAll = { roles: coordinators, ofAll: true } as const;

export function mayOpen(
  { roles, ofAll = false }: Pick<Route, 'roles' | 'ofAll'>,
  { account, facilities }: Pick<Visit, 'account' | 'facilities'>,
): boolean {
  return roles.includes(account.role) && (facilities === null || !ofAll);
}

/** Where the console stands on the server. */
export const root = '/console';
