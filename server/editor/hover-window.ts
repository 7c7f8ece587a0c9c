/** Hover on a tube that carries shoulder straps, and on its straps: where the bar may lie. Worked out only when asked. */
import type { Tube } from '../cage/cage';
import type { Analysis } from '../project/project';
import { windowLines } from '../project/window';
import { plain } from './figures';

/** Empty where no strap lies on the tube, or nothing can be said. */
export function hoverWindow(analysis: Analysis, tube: Tube | null): string {
  if (tube === null) return '';
  const lines = windowLines(analysis, tube);
  return lines.length === 0
    ? ''
    : `**Where it may lie**, in side view, by the chosen books:\n\n${lines.map((line) => `- ${plain(line)}`).join('\n')}`;
}
