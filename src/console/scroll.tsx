// A table that is wider than a narrow screen scrolls by itself, and the keyboard reaches it (WCAG 2.2, 2.1.1).

import type { ComponentChildren, VNode } from 'preact';

export function Scroll({ name, children }: { readonly name: string; readonly children: ComponentChildren }): VNode {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard
    <section class="scroll" tabIndex={0} aria-label={name}>
      {children}
    </section>
  );
}
