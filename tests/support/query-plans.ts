// How PostgreSQL would run each statement that is sent to it: a database that notes the server's own plans beside the answers.

import type { Database, Sql } from '../../src/register/database.ts';

export interface Plan {
  readonly 'Node Type': string;
  readonly 'Relation Name'?: string;
  readonly 'Index Name'?: string;
  readonly Plans?: readonly Plan[];
}

/** The database, which notes how the server would run each statement, and runs it. */
function noting(database: Database, plans: Plan[]): Database {
  const through = (sql: Sql): Sql => ({
    script: (text) => sql.script(text),
    seal: (text) => sql.seal(text),
    query: async <Row>(text: string, values: readonly unknown[] = []) => {
      const [explained] = await sql.query<{ 'QUERY PLAN': readonly { readonly Plan: Plan }[] }>(`explain (format json) ${text}`, values);
      plans.push(...(explained?.['QUERY PLAN'] ?? []).map(({ Plan: plan }) => plan));
      return sql.query<Row>(text, values);
    },
  });
  return { ...through(database), transaction: (work) => database.transaction((sql) => work(through(sql))), close: async () => {} };
}

/**
 * Every node of every plan of what `ask` sends.
 *
 * Errors   it sends nothing.
 */
export async function planNodes(database: Database, ask: (database: Database) => Promise<unknown>): Promise<Plan[]> {
  const plans: Plan[] = [];
  await ask(noting(database, plans));
  if (plans.length === 0) throw new Error('No statement was sent.');
  const flat = (plan: Plan): Plan[] => [plan, ...(plan.Plans ?? []).flatMap(flat)];
  return plans.flatMap(flat);
}

/** Tables that are read from end to end. */
export function readWhole(nodes: readonly Plan[]): string[] {
  return nodes.flatMap((node) => (node['Node Type'] === 'Seq Scan' ? [node['Relation Name'] ?? ''] : []));
}
