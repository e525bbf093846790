// What becomes of an edited copy of the shipped files: `check` refuses it, or it changes nothing that anybody is told, or it has
// slipped through. What anybody is told: the interpretation of thousands of cases, and the words. Next: edits.ts.

import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { askedIn } from '../../src/authoring/checks/must-ask.ts';
import { loadAll } from '../../src/cli/load-published.ts';
import type { Case, Protocol } from '../../src/clinical/protocol.ts';
import type { Published } from '../../src/conversation/book.ts';
import { anyCase } from '../support/arbitrary-case.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { referenceCases } from '../support/reference-cases.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import type { Edit } from './edits.ts';

export type Verdict =
  | { readonly kind: 'refused'; readonly by: string }
  /** Of a language that is a draft, or of a rule whose cases are gone. */
  | { readonly kind: 'warned'; readonly by: string }
  /** Nothing that is told differs in any case that was tried. */
  | { readonly kind: 'harmless' }
  | { readonly kind: 'slipped-through'; readonly how: string };

export interface Judge {
  judge(edit: Edit): Promise<Verdict>;
  remove(): void;
}

const root = new URL('../../', import.meta.url).pathname;
const randomCases = 1_500;

export async function openJudge(seed: number): Promise<Judge> {
  const folder = temporaryFolder();
  for (const shared of ['flows', 'locales']) cpSync(join(root, shared), join(folder.path, shared), { recursive: true });
  const places = { flows: join(folder.path, 'flows'), locales: join(folder.path, 'locales'), PIPIT_ALLOW_DRAFTS: true };
  const before = loadAll(places).published;
  if (before === null) throw new Error('The files as shipped have errors. Run npm run pipit -- check and mend them first.');
  const cases = casesFor(defaultProtocol, seed);
  const told = tellAll(before, cases);
  return {
    async judge({ file, text }) {
      const path = join(folder.path, file);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, text);
      const { published, diagnostics } = loadAll(places);
      cpSync(join(root, file), path);
      const [error] = diagnostics.filter(({ severity }) => severity === 'error');
      if (error !== undefined || published === null) return { kind: 'refused', by: error?.code ?? 'not published' };
      const [warning] = diagnostics;
      if (warning !== undefined) return { kind: 'warned', by: warning.code };
      const how =
        difference(told, tellAll(published, cases)) ??
        differentWords(before, published) ??
        notAsked(before, published) ??
        askedOthers(before, published);
      return how === null ? { kind: 'harmless' } : { kind: 'slipped-through', how };
    },
    remove: folder.remove,
  };
}

function casesFor(protocol: Protocol, seed: number): Case[] {
  return [...referenceCases.map(({ input }) => input), ...fc.sample(anyCase(protocol), { seed, numRuns: randomCases })];
}

/** Of each case what is told, without the reasons and the rows, which explain and decide nothing. */
function tellAll(published: Published, cases: readonly Case[]): string[] {
  return cases.map((one) => {
    try {
      const { urgency, classifications, missing, advice } = published.interpret(one);
      const given = classifications.map(({ id, urgency: of, recheck, within }) => [id, of, recheck, within]);
      return JSON.stringify([urgency, given, missing, advice]);
    } catch (error) {
      return String(error);
    }
  });
}

function difference(before: readonly string[], after: readonly string[]): string | null {
  const at = before.findIndex((one, place) => one !== after[place]);
  return at === -1 ? null : `${before[at]} -> ${after[at]}`;
}

function differentWords(before: Published, after: Published): string | null {
  for (const [tag, { messages }] of before.catalogues.byTag) {
    const now = after.catalogues.byTag.get(tag)?.messages;
    for (const [key, message] of messages) if (JSON.stringify(now?.get(key)) !== JSON.stringify(message)) return `${tag} ${key}`;
  }
  return null;
}

/** A flow that asks more, or in another order, costs texts and hides nothing. */
function notAsked(before: Published, after: Published): string | null {
  for (const flow of before.flows) {
    const now = after.flows.find(({ id }) => id === flow.id);
    const asked = now === undefined ? new Set<string>() : askedIn(now);
    const gone = [...askedIn(flow)].find((name) => !asked.has(name));
    if (gone !== undefined) return `${flow.id} does not ask for ${gone}`;
  }
  return null;
}

/** Every edit of a guard that is tried asks fewer babies; and whatever stands first is said before all else. */
function askedOthers(before: Published, after: Published): string | null {
  for (const flow of before.flows) {
    const now = after.flows.find(({ id }) => id === flow.id)?.steps ?? [];
    if (now[0]?.id !== flow.steps[0]?.id) return `${flow.id} begins with ${now[0]?.id}`;
    for (const { id, onlyIf } of flow.steps) {
      const step = now.find((one) => one.id === id);
      if (step !== undefined && JSON.stringify(step.onlyIf) !== JSON.stringify(onlyIf)) return `${flow.id} asks ${id} of others`;
    }
  }
  return null;
}
