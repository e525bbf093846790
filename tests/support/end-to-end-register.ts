// Looks into the register past the server, as an auditor would: what is written there, row by row.

import { openPostgres } from '../../src/register/postgres.ts';

export interface TextRow {
  readonly key: string;
  readonly recipient: string;
  readonly text: string;
  readonly state: string;
  readonly attempts: number;
  readonly urgent: boolean;
  readonly at: number;
  readonly settled_at: number | null;
  readonly gateway_id: string | null;
}

export interface ExaminationRow {
  readonly key: string;
  /** Of the files in force when it ended. */
  readonly version: string;
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
  allAlerts(): Promise<AlertRow[]>;
  /** Alerts that nobody has taken, each with what was asked of whom and what is still to come, times in seconds from now. */
  untaken(): Promise<object[]>;
  /** Who moved an alert and who was asked, in order. */
  movesOf(alert: string): Promise<{ readonly state_from: string | null; readonly state_to: string; readonly by: string }[]>;
  askedOf(alert: string): Promise<string[]>;
  /** As if her time to take the alert were over; false while the register knows of no such time. */
  endTimeToTake(code: string, step: number): Promise<boolean>;
  /** Texts that speak of this worker's babies to the nurse, or go to the worker. */
  texts(about: string): Promise<TextRow[]>;
  allTexts(): Promise<TextRow[]>;
  /** Queues texts that are due at once, all in one instant, urgent ones unless it is said; leaves known ones as they are. */
  queueTexts(texts: readonly { readonly key: string; readonly to: string; readonly text: string }[], urgent?: boolean): Promise<void>;
  /** As if the claims of senders that died had run out. */
  endClaims(): Promise<void>;
  close(): Promise<void>;
}

export function viewRegister(url: string): RegisterView {
  const database = openPostgres(url);
  return {
    examinations: (worker) => database.query<ExaminationRow>('select * from examinations where worker = $1 order by key', [worker]),
    alerts: (worker) => database.query<AlertRow>('select * from alerts where worker = $1 order by key', [worker]),
    allAlerts: () => database.query<AlertRow>('select * from alerts order by key'),
    untaken: () =>
      database.query<object>(
        `select code,
           (select json_agg(nurse order by step) from alert_asks where alert = alerts.key) as asked,
           (select json_agg(json_build_array(key, state, times, faults, (due_at - $1) / 1000) order by key)
             from due_work where alert = alerts.key) as due,
           (select json_agg(json_build_array(key, state, attempts, (due_at - $1) / 1000) order by key)
             from texts_out where strpos(text, alerts.code || ' URGENT') = 1) as texts
         from alerts where state = 'open' order by key`,
        [Date.now()],
      ),
    movesOf: (alert) => database.query('select state_from, state_to, by from alert_history where alert = $1 order by move', [alert]),
    askedOf: async (alert) => {
      const rows = await database.query<{ nurse: string }>('select nurse from alert_asks where alert = $1 order by step', [alert]);
      return rows.map(({ nurse }) => nurse);
    },
    endTimeToTake: async (code, step) => {
      const ended = `update due_work set due_at = case due_work.state when 'pending' then 0 else due_at end
        from alerts where alerts.code = $1 and due_work.key = 'due:' || alerts.key || ':' || $2::text returning due_work.key`;
      return (await database.query(ended, [code, step])).length > 0;
    },
    texts: (about) => database.query<TextRow>(`select * from texts_out where recipient = $1 or strpos(key, $1) > 0 order by key`, [about]),
    allTexts: () => database.query<TextRow>('select * from texts_out order by key'),
    queueTexts: (texts, urgent = true) =>
      database.transaction(async (sql) => {
        const insert =
          'insert into texts_out (key, recipient, text, urgent, at, due_at) values ($1, $2, $3, $4, 0, 0) on conflict do nothing';
        for (const { key, to, text } of texts) await sql.query(insert, [key, to, text, urgent]);
      }),
    endClaims: async () => void (await database.query(`update texts_out set due_at = at where state = 'due'`)),
    close: () => database.close(),
  };
}
