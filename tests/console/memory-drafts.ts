// The port of drafts in memory, as strict about who saw what as the table of the register, which
// tests/register/drafts.test.ts looks at.

import type { DraftFile, Drafts } from '../../src/conversation/drafts.ts';

export function memoryDrafts(): Drafts & { readonly files: Map<string, DraftFile> } {
  const files = new Map<string, DraftFile>();
  return {
    files,
    read: async () => [...files.values()],
    async save(file, seen) {
      const there = files.get(file.name);
      if (there !== undefined && there.save !== seen) return { kind: 'overtaken', by: there };
      const save = (there?.save ?? 0) + 1;
      files.set(file.name, { ...file, save });
      return { kind: 'saved', save };
    },
    async discard(name, save) {
      for (const [each, draft] of files)
        if ((name === undefined || each === name) && (save === undefined || draft.save === save)) files.delete(each);
    },
  };
}
