// Looks into the register past the server, as an auditor would: what is written there, row by row.

import { openPostgres } from '../../src/register/postgres.ts';

export interface TextRow {
  readonly key: string;
  readonly recipient: string;
  readonly text: string;
  readonly state: string;
  readonly attempts: number;
}

export interface ExaminationRow {
  readonly key: string;
  readonly worker: string;
  readonly code: string;
  readonly body: {
    readonly case: { readonly findings: Readonly<Record<string, unknown>> };
    readonly examination: { readonly answers: readonly { readonly message: number }[] };
  };
}

export interface AlertRow {
  readonly key: string;
  readonly worker: string;
  readonly code: string;
  readonly state: string;
  readonly taken_by: string | null;
}

export interface RegisterView {
  examinations(worker: string): Promise<ExaminationRow[]>;
  alerts(worker: string): Promise<AlertRow[]>;
  /** Texts that speak of this worker's babies to the nurse, or go to the worker. */
  texts(about: string): Promise<TextRow[]>;
  allTexts(): Promise<TextRow[]>;
  /** Queues urgent texts that are due at once, all in one instant. */
  queueTexts(texts: readonly { readonly key: string; readonly to: string; readonly text: string }[]): Promise<void>;
  /** As if the claims of senders that died had run out. */
  endClaims(): Promise<void>;
  close(): Promise<void>;
}

export function viewRegister(url: string): RegisterView {
  const database = openPostgres(url);
  return {
    examinations: (worker) => database.query<ExaminationRow>('select * from examinations where worker = $1 order by key', [worker]),
    alerts: (worker) => database.query<AlertRow>('select * from alerts where worker = $1 order by key', [worker]),
    texts: (about) => database.query<TextRow>(`select * from texts_out where recipient = $1 or strpos(key, $1) > 0 order by key`, [about]),
    allTexts: () => database.query<TextRow>('select * from texts_out order by key'),
    queueTexts: (texts) =>
      database.transaction(async (sql) => {
        const insert = 'insert into texts_out (key, recipient, text, urgent, at, due_at) values ($1, $2, $3, true, 0, 0)';
        for (const { key, to, text } of texts) await sql.query(insert, [key, to, text]);
      }),
    endClaims: async () => void (await database.query(`update texts_out set due_at = at where state = 'due'`)),
    close: () => database.close(),
  };
}
