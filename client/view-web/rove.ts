/** One tab stop for a row or list of things, arrow keys between them: as lists, tabs and tool rows work for a keyboard. */

const STEPS: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };
const PAGE = 10;

/** What a key leads to: the index of the next one, or null when the key does not move. */
export function nextIndex(key: string, index: number, count: number): number | null {
  if (count === 0) return null;
  const last = count - 1;
  const step = STEPS[key];
  if (step !== undefined) return Math.min(last, Math.max(0, index + step));
  if (key === 'Home') return 0;
  if (key === 'End') return last;
  if (key === 'PageDown') return Math.min(last, index + PAGE);
  if (key === 'PageUp') return Math.max(0, index - PAGE);
  return null;
}

/** Makes the elements that match inside a container one tab stop. Call `refresh` when elements came or went. */
export function rove(container: HTMLElement, selector: string, moved: (to: HTMLElement) => void = () => undefined) {
  const all = () => [...container.querySelectorAll<HTMLElement>(selector)];
  const stop = (at: HTMLElement | undefined) => {
    for (const one of all()) one.tabIndex = one === at ? 0 : -1;
  };
  container.addEventListener('keydown', (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const elements = all();
    const index = elements.findIndex((one) => one === document.activeElement);
    if (index < 0) return;
    const to = elements[nextIndex(event.key, index, elements.length) ?? -1];
    if (!to) return;
    event.preventDefault();
    event.stopPropagation();
    stop(to);
    to.focus();
    moved(to);
  });
  container.addEventListener('focusin', (event) => {
    const at = event.target instanceof HTMLElement ? event.target.closest<HTMLElement>(selector) : null;
    if (at) stop(at);
  });
  const refresh = (current?: HTMLElement) => {
    const elements = all();
    stop(current ?? elements.find((one) => one.tabIndex === 0) ?? elements[0]);
  };
  refresh();
  return { refresh };
}
