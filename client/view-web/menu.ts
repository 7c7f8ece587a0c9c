/** A button that opens a short list of things to do. */
import { button, el, setAttribute } from './dom';
import { rove } from './rove';

export function menu(
  text: string,
  items: readonly { readonly text: string; readonly does: () => void }[],
): HTMLElement {
  const open = (shown: boolean) => {
    list.hidden = !shown;
    setAttribute(opener, 'aria-expanded', shown ? 'true' : 'false');
    if (shown) list.querySelector<HTMLElement>('button')?.focus();
  };
  const opener = button(text, () => {
    open(list.hidden);
  });
  const list = el(
    'div',
    { class: 'menu', role: 'menu', 'aria-label': text, hidden: true },
    ...items.map((item) => {
      const entry = button(item.text, () => {
        open(false);
        opener.focus();
        item.does();
      });
      entry.setAttribute('role', 'menuitem');
      return entry;
    }),
  );
  setAttribute(opener, 'aria-haspopup', 'menu');
  setAttribute(opener, 'aria-expanded', 'false');
  rove(list, 'button');
  list.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    open(false);
    opener.focus();
  });
  const whole = el('div', { class: 'with-menu' }, opener, list);
  whole.addEventListener('focusout', (event) => {
    if (!(event.relatedTarget instanceof Node) || !whole.contains(event.relatedTarget)) open(false);
  });
  return whole;
}
