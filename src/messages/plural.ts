// Which plural form a number takes in a language, from the CLDR data of the runtime (Intl.PluralRules). A language the
// runtime does not know has the form `other` only: without this the machine's own language would decide in silence.

export type PluralForm = Intl.LDMLPluralRule;

const known = new Map<string, Intl.PluralRules | null>();

function rulesOf(tag: string): Intl.PluralRules | null {
  let rules = known.get(tag);
  if (rules === undefined) {
    rules = isKnownLanguage(tag) ? new Intl.PluralRules(tag) : null;
    known.set(tag, rules);
  }
  return rules;
}

/** True: the tag is well formed and the runtime has plural data for the language. */
export function isKnownLanguage(tag: string): boolean {
  try {
    return Intl.PluralRules.supportedLocalesOf(tag).length > 0;
  } catch {
    return false;
  }
}

/** The form that a count takes: `one`, `few`, ... Never throws. */
export function pluralForm(tag: string, count: number): PluralForm {
  return rulesOf(tag)?.select(count) ?? 'other';
}

/**
 * The forms a language needs for the whole numbers a text may hold, up to a thousand, `other` last. A form that begins
 * at a million (`many` in French and Portuguese) is not among them: no baby weighs that.
 */
export function pluralForms(tag: string): PluralForm[] {
  const forms = new Set<PluralForm>();
  for (let count = 0; count <= 1000; count += 1) forms.add(pluralForm(tag, count));
  forms.delete('other');
  return [...forms, 'other'];
}
