/** What stands beside the picture: findings, parts and nodes as lists, the tools, the keys, and what is picked. */
import type { WireFinding } from '../../server/lsp/view-wire';
import type { Desk } from './desk';
import { button, el, setAttribute, setText } from './dom';
import { KEY_LIST, MOUSE_LIST } from './keys';
import { List, type Line } from './list';
import { waysOf } from './move';
import { rove } from './rove';
import { LAYERS, TABS, type LayerName, type TabName } from './state';
import { severityWord } from './symbols';

export interface SideDeeds {
  pick(id: string, go: boolean): void;
  finding(index: number, go: boolean): void;
  measureFrom(id: string): void;
  /** A key on a line of a list that does what it does on the picture; true: it did. */
  key(event: KeyboardEvent): boolean;
}

const TAB_WORDS: Readonly<Record<TabName, string>> = {
  findings: 'Findings',
  parts: 'Parts',
  nodes: 'Nodes',
  tools: 'Tools',
  keys: 'Keys',
};

const LAYER_WORDS: Readonly<Record<LayerName, string>> = {
  problems: 'Findings on the parts',
  figures: 'Figures of what is picked',
  window: 'Where the harness bar may be (Side)',
  nodes: 'Nodes',
  seats: 'Seats and helmets',
  straps: 'Straps',
  panels: 'Panels and padding',
  spaces: 'Insides of tubes',
  ground: 'Ground and scale',
};

/** The same finding after an edit, wherever it then stands in the list. */
export function findingIds(findings: readonly WireFinding[]): readonly string[] {
  const seen = new Map<string, number>();
  return findings.map(({ code, of }) => {
    const key = `${code} ${of.join(' ')}`;
    const count = seen.get(key) ?? 0;
    seen.set(key, count + 1);
    return `${key} ${String(count)}`;
  });
}

export class Side {
  readonly element: HTMLElement;
  private readonly tabs: Readonly<Record<TabName, HTMLElement>>;
  private readonly pages: Readonly<Record<TabName, HTMLElement>>;
  private readonly findings: List;
  private readonly parts: List;
  private readonly nodes: List;
  private readonly layers = new Map<LayerName, HTMLInputElement>();
  private ids: readonly string[] = [];
  private drawn: unknown = null;

  constructor(
    private readonly desk: Desk,
    deeds: SideDeeds,
    tools: readonly HTMLElement[],
    picked: HTMLElement,
  ) {
    this.findings = new List(
      { label: 'Findings, worst first', filter: 'Filter findings', empty: 'Nothing is found wrong.' },
      (id, go) => {
        deeds.finding(this.ids.indexOf(id), go);
      },
    );
    const keys = (id: string, event: KeyboardEvent) => {
      if (deeds.key(event)) {
        event.preventDefault();
        event.stopPropagation();
      } else if (event.key.toLowerCase() === 'm' && !event.ctrlKey && !event.metaKey) deeds.measureFrom(id);
    };
    this.parts = new List(
      { label: 'Parts', filter: 'Filter parts', empty: 'There are no parts yet.' },
      deeds.pick,
      keys,
    );
    this.nodes = new List(
      { label: 'Nodes', filter: 'Filter nodes', empty: 'There are no nodes yet.' },
      deeds.pick,
      keys,
    );
    const page = (name: TabName, ...children: readonly HTMLElement[]) =>
      el('div', { role: 'tabpanel', id: `page-${name}`, 'aria-labelledby': `tab-${name}`, class: 'page' }, ...children);
    this.pages = {
      findings: page('findings', this.findings.element),
      parts: page('parts', this.parts.element),
      nodes: page('nodes', this.nodes.element),
      tools: page('tools', ...tools, this.layerChoices()),
      keys: page('keys', keyList('Keys on the picture', KEY_LIST), keyList('Mouse and fingers', MOUSE_LIST)),
    };
    const tab = (name: TabName) => {
      const made = button(TAB_WORDS[name], () => {
        this.open(name);
      });
      for (const [key, value] of Object.entries({ role: 'tab', id: `tab-${name}`, 'aria-controls': `page-${name}` })) {
        made.setAttribute(key, value);
      }
      return made;
    };
    this.tabs = {
      findings: tab('findings'),
      parts: tab('parts'),
      nodes: tab('nodes'),
      tools: tab('tools'),
      keys: tab('keys'),
    };
    const row = el(
      'div',
      { class: 'tabs', role: 'tablist', 'aria-label': 'Lists and tools' },
      ...Object.values(this.tabs),
    );
    rove(row, '[role="tab"]', (to) => {
      to.click();
    });
    this.element = el(
      'aside',
      { class: 'side', 'aria-label': 'Lists and tools' },
      row,
      ...Object.values(this.pages),
      picked,
    );
    this.open(desk.kept.tab);
    desk.watch(() => {
      this.render();
    });
  }

  private layerChoices(): HTMLElement {
    const choices = LAYERS.map((name) => {
      const box = el('input', { type: 'checkbox' });
      box.checked = this.desk.kept.layers[name];
      box.addEventListener('change', () => {
        this.desk.remember({ layers: { ...this.desk.kept.layers, [name]: box.checked } });
        this.desk.changed();
      });
      this.layers.set(name, box);
      return el('label', { class: 'check' }, box, LAYER_WORDS[name]);
    });
    return el('fieldset', { class: 'layers' }, el('legend', {}, 'Show'), ...choices);
  }

  /** Opens one of the pages. */
  open(name: TabName): void {
    for (const each of TABS) {
      setAttribute(this.tabs[each], 'aria-selected', each === name ? 'true' : 'false');
      this.tabs[each].tabIndex = each === name ? 0 : -1;
      this.pages[each].hidden = each !== name;
    }
    if (this.desk.kept.tab !== name) this.desk.remember({ tab: name });
  }

  private render(): void {
    const { desk } = this;
    const model = desk.shown;
    if (model !== this.drawn) {
      this.drawn = model;
      const findings = model?.findings ?? [];
      this.ids = findingIds(findings);
      this.findings.update(
        findings.map((one, index): Line => ({
          id: this.ids[index] ?? '',
          text: one.text,
          more: one.code,
          sign: one.severity,
        })),
      );
      const worst = desk.worst();
      this.parts.update(
        (model?.things ?? [])
          .filter(({ kind }) => kind !== 'space')
          .map(({ id, label }): Line => ({ id, text: label, more: '', sign: worst.get(id) ?? null })),
      );
      this.nodes.update(
        (model?.nodes ?? []).map((node): Line => {
          const ways = waysOf(node).map(({ words }) => words);
          const drag = ways.length > 0 ? [`drag: ${ways.join(', ')}`] : [];
          const more = [...drag, ...(node.hangs === null ? [] : [node.hangs])].join('; ');
          return { id: node.id, text: node.name, more, sign: worst.get(node.id) ?? null };
        }),
      );
      setText(this.tabs.findings, findings.length > 0 ? `Findings ${String(findings.length)}` : 'Findings');
      const bad = findings[0];
      setAttribute(this.tabs.findings, 'title', bad ? `${severityWord(bad.severity)} is the worst` : null);
    }
    this.findings.choose(desk.finding === null ? null : (this.ids[desk.finding] ?? null));
    const chosen = desk.picked ?? [...desk.byText][0] ?? null;
    this.parts.choose(chosen);
    this.nodes.choose(chosen);
    for (const [name, box] of this.layers) box.checked = desk.kept.layers[name];
  }
}

function keyList(title: string, rows: readonly (readonly [string, string])[]): HTMLElement {
  return el(
    'section',
    {},
    el('h3', {}, title),
    el('dl', { class: 'keys' }, ...rows.flatMap(([keys, does]) => [el('dt', {}, keys), el('dd', {}, does)])),
  );
}
