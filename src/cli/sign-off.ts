// `pipit check --sign-off`: what a newborn lead must sign off before live use. Every row of the protocol that is from memory or
// our own choice, with its source as cited and where it is used.

import type { Protocol } from '../clinical/protocol.ts';

export interface SignOff {
  readonly row: string;
  readonly proof: readonly string[];
  readonly source: string;
  /** `finding temperature`, `classification pneumonia`, `advice keep-warm`, `dose gentamicin` ... */
  readonly usedBy: readonly string[];
}

/** In the order of the rows; rows whose figures were all read in their source are left out. */
export function rowsToSignOff(protocol: Protocol): SignOff[] {
  const uses = usesOf(protocol);
  return [...protocol.rows]
    .filter(([, { proof }]) => proof.includes('from-memory') || proof.includes('project'))
    .map(([row, { proof, source }]) => ({ row, proof, source, usedBy: [...(uses.get(row) ?? [])] }));
}

export function renderSignOff(rows: readonly SignOff[]): string[] {
  const lines = rows.map(
    ({ row, proof, source, usedBy }) =>
      `${row}  ${proof.join(', ')}  ${source}\n    ${usedBy.length === 0 ? 'not used by a rule' : usedBy.join('; ')}`,
  );
  return [...lines, `${rows.length} rows to sign off.`];
}

function usesOf(protocol: Protocol): Map<string, Set<string>> {
  const uses = new Map<string, Set<string>>();
  const use = (rows: readonly string[], by: string): void => {
    for (const row of rows) uses.set(row, (uses.get(row) ?? new Set()).add(by));
  };
  for (const finding of protocol.findings) {
    use(finding.rows, `finding ${finding.id}`);
    if ('bands' in finding) for (const band of finding.bands) use(band.rows, `finding ${finding.id}, band ${band.id}`);
  }
  for (const { id, rows, rules, raised } of protocol.classifications) {
    use(rows, `classification ${id}`);
    for (const rule of [...rules, ...raised]) use(rule.rows, `classification ${id}`);
  }
  for (const { key, rows } of protocol.advice) use(rows, `advice ${key.replace('advice.', '')}`);
  for (const { drug, row, amounts } of protocol.doses) use([row, ...amounts.map((amount) => amount.row)], `dose ${drug}`);
  for (const { id, row } of protocol.switches.values()) use([row], `switch ${id}`);
  return uses;
}
