/** What the panel keeps when it is hidden or the window starts again, and how it is read back: nothing in it is trusted. */
import { readPose, type Pose } from './pose';

/** What can be shown or left out. */
export const LAYERS = [
  'problems',
  'figures',
  'window',
  'nodes',
  'seats',
  'straps',
  'panels',
  'spaces',
  'ground',
] as const;
export type LayerName = (typeof LAYERS)[number];
export type Layers = Readonly<Record<LayerName, boolean>>;

export const TABS = ['findings', 'parts', 'nodes', 'tools', 'keys'] as const;
export type TabName = (typeof TABS)[number];

export interface Section {
  readonly axis: 'x' | 'y' | 'z';
  /** Where it cuts, mm. */
  readonly at: number;
  /** The other side is taken away. */
  readonly flip: boolean;
}

export interface Kept {
  /** Whose picture it is: the editor restores the panel by it. */
  readonly uri: string;
  readonly pose: Pose | null;
  readonly layers: Layers;
  readonly section: Section | null;
  readonly tab: TabName;
  /** The lists beside the picture are shown. */
  readonly lists: boolean;
}

export const FIRST_LAYERS: Layers = {
  problems: true,
  figures: true,
  window: true,
  nodes: true,
  seats: true,
  straps: true,
  panels: true,
  spaces: false,
  ground: true,
};

type Fields = Readonly<Record<string, unknown>>;
const fieldsOf = (value: unknown): Fields | null =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : null;

function readSection(value: unknown): Section | null {
  const fields = fieldsOf(value);
  if (!fields) return null;
  const axis = (['x', 'y', 'z'] as const).find((one) => one === fields['axis']);
  const at = fields['at'];
  if (!axis || typeof at !== 'number' || !Number.isFinite(at) || Math.abs(at) > 100_000) return null;
  return { axis, at, flip: fields['flip'] === true };
}

/** What was kept; what is not as it should be is as at the first time. */
export function readKept(value: unknown): Kept {
  const fields = fieldsOf(value) ?? {};
  const layers = fieldsOf(fields['layers']) ?? {};
  const shown = Object.fromEntries(
    LAYERS.map((name) => [name, typeof layers[name] === 'boolean' ? layers[name] : FIRST_LAYERS[name]]),
  ) as Record<LayerName, boolean>;
  return {
    uri: typeof fields['uri'] === 'string' ? fields['uri'] : '',
    pose: readPose(fields['pose']),
    layers: shown,
    section: readSection(fields['section']),
    tab: TABS.find((one) => one === fields['tab']) ?? 'findings',
    lists: fields['lists'] !== false,
  };
}
