/** Elements of the page, made by script: text only ever becomes text nodes, never markup. */

type Child = Node | string | null;

/** Attributes as they are written; `class` too. A value of null or false leaves the attribute out, true writes it empty. */
type Attributes = Readonly<Record<string, string | number | boolean | null>>;

/** An element with attributes and children. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) setAttribute(made, name, value);
  for (const child of children) if (child !== null) made.append(child);
  return made;
}

/** Writes, changes or takes away one attribute; touches nothing when it is so already. */
export function setAttribute(of: Element, name: string, value: string | number | boolean | null): void {
  if (value === null || value === false) of.removeAttribute(name);
  else {
    const text = value === true ? '' : String(value);
    if (of.getAttribute(name) !== text) of.setAttribute(name, text);
  }
}

/** Sets the text of an element, and leaves it alone when it reads so already. */
export function setText(of: Element, text: string): void {
  if (of.textContent !== text) of.textContent = text;
}

/** A button that says what it does; `key` is the key that does the same, told to a screen reader. */
export function button(text: string, does: () => void, title: string | null = null, key: string | null = null) {
  const made = el('button', { type: 'button', title, 'aria-keyshortcuts': key }, text);
  made.addEventListener('click', does);
  return made;
}

/** Whether keys typed there are text or the element's own, so that the picture must not take them. */
export function takesKeys(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLElement && target.isContentEditable)
  );
}
