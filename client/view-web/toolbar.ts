/** The row of buttons over the picture. */
import type { ExportKind } from '../view/messages';
import type { Deeds } from './keys';
import { button, el, setAttribute } from './dom';
import { menu } from './menu';
import { rove } from './rove';

export interface ToolbarDeeds extends Deeds {
  save(kind: ExportKind): void;
  picture(): void;
  lists(): void;
}

const VIEWS = [
  ['plan', 'Plan', '1'],
  ['side', 'Side', '2'],
  ['front', 'Front', '3'],
  ['free', 'Free', '0'],
] as const;

export class Toolbar {
  readonly element: HTMLElement;
  private readonly views: readonly HTMLButtonElement[];
  private readonly parallel: HTMLButtonElement;
  private readonly measure: HTMLButtonElement;
  private readonly lists: HTMLButtonElement;

  constructor(deeds: ToolbarDeeds) {
    this.views = VIEWS.map(([name, text, key]) =>
      button(
        text,
        () => {
          deeds.view(name);
        },
        `${text} (${key})`,
        key,
      ),
    );
    this.parallel = button(
      'Parallel',
      () => {
        deeds.parallel();
      },
      'Parallel or perspective (P)',
      'P',
    );
    this.measure = button(
      'Measure',
      () => {
        deeds.measure();
      },
      'Pick two things and read what lies between (M)',
      'M',
    );
    this.lists = button(
      'Lists',
      () => {
        deeds.lists();
      },
      'Lists and tools beside the picture',
    );
    const group = (label: string, ...children: readonly HTMLElement[]) =>
      el('div', { role: 'group', 'aria-label': label }, ...children);
    const save = (kind: ExportKind) => () => {
      deeds.save(kind);
    };
    this.element = el(
      'div',
      { class: 'bar', role: 'toolbar', 'aria-label': 'Picture' },
      group('View', ...this.views, this.parallel),
      group(
        'Frame',
        button(
          'Frame all',
          () => {
            deeds.frame(true);
          },
          'All of the car in the picture (A)',
          'A',
        ),
        button(
          'Frame picked',
          () => {
            deeds.frame(false);
          },
          'What is picked in the picture (F)',
          'F',
        ),
      ),
      group(
        'Do',
        this.measure,
        menu('Save', [
          { text: 'Drawing: plan (SVG)', does: save('plan') },
          { text: 'Drawing: side (SVG)', does: save('side') },
          { text: 'Drawing: front (SVG)', does: save('front') },
          {
            text: 'This picture (PNG)',
            does: () => {
              deeds.picture();
            },
          },
          { text: 'For other programs (glTF, GLB)', does: save('glb') },
        ]),
        this.lists,
      ),
    );
    rove(this.element, '.bar > div > button, .with-menu > button');
  }

  render(view: string, parallel: boolean, measuring: boolean, lists: boolean): void {
    const press = (of: HTMLElement | undefined, on: boolean) => {
      if (of) setAttribute(of, 'aria-pressed', on ? 'true' : 'false');
    };
    VIEWS.forEach(([name], index) => {
      press(this.views[index], name === view);
    });
    press(this.parallel, parallel);
    press(this.measure, measuring);
    press(this.lists, lists);
  }
}
