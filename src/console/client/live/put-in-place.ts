// New content for a part of the page without loss to whoever works in it: what was typed is typed in the new fields, and the keyboard
// stands where it stood. Fields, buttons and links are the same when they stand in the same element with an id and are named the same;
// never by their place, or a button to close could come where one to pass on was.

const reached = ['a[href]', 'button', 'input:not([type=hidden])', 'section[tabindex]', 'summary'].join();

export function putInPlace(part: HTMLElement, html: string): void {
  const typed = [...part.querySelectorAll('input')]
    .filter(({ type, value, defaultValue }) => type !== 'hidden' && value !== defaultValue)
    .map((field) => ({ value: field.value, again: whereIs(field) }));
  const active = part.contains(document.activeElement) ? document.activeElement : null;
  const [again, selected] = [active === null ? null : whereIs(active), active instanceof HTMLInputElement ? selectionOf(active) : null];
  part.innerHTML = html;
  for (const { value, again } of typed) {
    const field = again();
    if (field instanceof HTMLInputElement) field.value = value;
  }
  const stands = again?.();
  if (!(stands instanceof HTMLElement)) return;
  stands.focus({ preventScroll: true });
  if (stands instanceof HTMLInputElement && selected !== null) stands.setSelectionRange(...selected);
}

/** Finds it again once the page has changed; null: it is there no more. */
function whereIs(one: Element): () => Element | null {
  const [holder, name] = [one.closest('[id]')?.id ?? '', nameOf(one)];
  return () => [...(document.getElementById(holder)?.querySelectorAll(reached) ?? [])].find((other) => nameOf(other) === name) ?? null;
}

function nameOf(one: Element): string {
  const attributes = ['href', 'name', 'value', 'aria-label'].map((name) => one.getAttribute(name));
  return [one.tagName, ...attributes].join(' ');
}

function selectionOf({ selectionStart, selectionEnd }: HTMLInputElement): [number | null, number | null] {
  return [selectionStart, selectionEnd];
}
