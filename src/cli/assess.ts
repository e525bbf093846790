// `pipit assess`: cases in JSON on stdin, their interpretations on stdout. It asks nothing and stores nothing.
// How a case is read: src/authoring/read-case.ts. What it means: src/clinical/interpret.ts.

import { join } from 'node:path';
import { renderDiagnostic } from '../authoring/diagnostic.ts';
import { namesGivenTwice } from '../authoring/names-given-twice.ts';
import { type CaseFault, type CaseId, readCase } from '../authoring/read-case.ts';
import { bindGrowth } from '../clinical/growth.ts';
import { interpret } from '../clinical/interpret.ts';
import type { Protocol } from '../clinical/protocol.ts';
import { loadGrowthTables } from './load-growth-tables.ts';
import { loadProtocol } from './load-protocol.ts';

export interface AssessOptions {
  /** The protocol, or why it could not be loaded. */
  readonly protocol: { readonly kind: 'protocol'; readonly protocol: Protocol } | { readonly kind: 'unusable'; readonly why: string };
  /** One case a line, one result a line. */
  readonly lines: boolean;
}

export interface Assessed {
  readonly stdout: string;
  readonly stderr: string;
  /** 0 when every case was read; 1 when the protocol cannot be loaded; 2 when a case is wrong. */
  readonly exitCode: 0 | 1 | 2;
}

/** Interprets what was piped in. Never throws; never writes anything itself. */
export function runAssess(stdin: string, { protocol: loaded, lines }: AssessOptions): Assessed {
  if (loaded.kind === 'unusable') return { stdout: '', stderr: `${loaded.why}\n`, exitCode: 1 };
  const { protocol } = loaded;
  if (lines)
    return together(
      stdin
        .split(/\r?\n/)
        .filter((line) => line.trim() !== '')
        .map((line, i) => assessText(line, i + 1, protocol)),
      (results) => results.map((one) => `${JSON.stringify(one)}\n`).join(''),
    );
  const json = parse(stdin);
  if (Array.isArray(json?.value))
    return together(
      json.value.map((one, i) =>
        assess(
          one,
          i + 1,
          protocol,
          json.twice.filter(([at]) => at === i).map(([, ...path]) => path),
        ),
      ),
      (results) => `${JSON.stringify(results, null, 2)}\n`,
    );
  const outcome = json === null ? notJson(1) : assess(json.value, 1, protocol, json.twice);
  if (outcome.faults.length > 0) return { stdout: '', stderr: said(outcome), exitCode: 2 };
  return { stdout: `${JSON.stringify(outcome.result, null, 2)}\n`, stderr: '', exitCode: 0 };
}

interface Outcome {
  /** The case's id, or its number, counted from 1. */
  readonly name: CaseId;
  readonly result: unknown;
  readonly faults: readonly CaseFault[];
}

function together(outcomes: readonly Outcome[], print: (results: readonly unknown[]) => string): Assessed {
  const stderr = outcomes.map(said).join('');
  return { stdout: print(outcomes.map((outcome) => outcome.result)), stderr, exitCode: stderr === '' ? 0 : 2 };
}

function assessText(text: string, number: number, protocol: Protocol): Outcome {
  const json = parse(text);
  return json === null ? notJson(number) : assess(json.value, number, protocol, json.twice);
}

function assess(json: unknown, number: number, protocol: Protocol, twice: readonly Path[]): Outcome {
  const read = readCase(json, protocol);
  const id = read.id === undefined ? {} : { id: read.id };
  const name = read.id ?? number;
  const faults = [...twice.map(givenTwice), ...(read.kind === 'faulty' ? read.faults : [])];
  if (read.kind === 'faulty' || faults.length > 0) return { name, faults, result: { ...id, error: faults[0] } };
  return { name, faults: [], result: { ...id, ...interpret(protocol, read.case) } };
}

type Path = readonly (string | number)[];

function givenTwice(path: Path): CaseFault {
  return { field: path.join('.'), message: `${JSON.stringify(path.at(-1))} is given twice; give it once` };
}

function notJson(number: number): Outcome {
  const fault: CaseFault = {
    field: 'input',
    message: 'this is not JSON; give a case in braces, such as { "ageHours": 5, "findings": {} }',
  };
  return { name: number, faults: [fault], result: { error: fault } };
}

function parse(text: string): { readonly value: unknown; readonly twice: readonly Path[] } | null {
  try {
    return { value: JSON.parse(text) as unknown, twice: namesGivenTwice(text) };
  } catch {
    return null;
  }
}

function said({ name, faults }: Outcome): string {
  return faults
    .map(
      ({ field, message }) =>
        `pipit assess: ${onOneLine(String(name))}: ${onOneLine(field === '' ? 'case' : field)}: ${onOneLine(message)}\n`,
    )
    .join('');
}

/** One message stays one line, whatever was sent as a name. */
const onOneLine = (text: string): string => text.replace(/[\r\n\u2028\u2029]+/g, ' ');

/** The protocol and the growth tables under this folder. */
export async function loadForAssess(flows: string): Promise<AssessOptions['protocol']> {
  try {
    const { files, read } = loadProtocol(join(flows, 'protocol'));
    if (read.kind === 'faulty') {
      const why = read.diagnostics.map((one) => renderDiagnostic(one, files.find((file) => file.name === one.file)?.text)).join('\n\n');
      return { kind: 'unusable', why };
    }
    const growth = bindGrowth(await loadGrowthTables(join(flows, 'reference')));
    return { kind: 'protocol', protocol: { ...read.protocol, growth } };
  } catch (error) {
    return { kind: 'unusable', why: error instanceof Error ? error.message : String(error) };
  }
}
