// Who may open the console: the ports over where accounts and their sessions are kept. Only types. Implemented by
// src/register/accounts.ts.

export type AccountRole = 'nurse' | 'coordinator';

export interface Account {
  readonly name: string;
  readonly role: AccountRole;
  /** The number of this person on the roster: alerts are taken in its name, and it says which facilities are hers. Null: all are. */
  readonly phone: string | null;
}

export interface StoredAccount extends Account {
  readonly passwordHash: string;
  /** Epoch milliseconds; no password is tried before then. 0: at once. */
  readonly waitsUntil: number;
}

export interface AccountSession {
  readonly account: Account;
  /** What forms carry, to show that they come from our own page. */
  readonly formToken: string;
}

export interface Accounts {
  find(name: string): Promise<StoredAccount | null>;
  list(): Promise<Account[]>;
  /** A new account, or another role, phone and password for one that there is. Its sessions end. */
  save(account: Account & { readonly passwordHash: string }, by: string, at: number): Promise<void>;
  setPassword(name: string, passwordHash: string, at: number): Promise<void>;
  /** False: there was none. Its sessions end. */
  remove(name: string, by: string, at: number): Promise<boolean>;
  /** Counts a wrong password; of the fifth in a row on the account waits. A right one begins the count anew. */
  noteTry(name: string, right: boolean, at: number): Promise<void>;
  /** Takes  token: kept as a hash only. */
  begin(name: string, token: string, formToken: string, at: number): Promise<void>;
  /** The session of a token that has not expired; null: none. Its time begins anew. */
  session(token: string, at: number): Promise<AccountSession | null>;
  end(token: string): Promise<void>;
  /** All but this one. */
  endOthers(name: string, token: string): Promise<void>;
}
