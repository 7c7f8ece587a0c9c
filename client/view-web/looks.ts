/** How each kind of thing looks: materials made of the theme's colours. Looks hang on the kind, never on a name. */
import {
  BackSide,
  Color,
  DoubleSide,
  FrontSide,
  GreaterDepth,
  LineBasicMaterial,
  MeshBasicMaterial,
  MeshPhongMaterial,
  type Plane,
  ShaderMaterial,
  Vector2,
} from 'three';
import type { ThingKind, ViewFinding } from '../../server/view/model';
import { colour, mixed, type Palette, type Rgb } from './palette';

export type Severity = ViewFinding['severity'];
/** `plain`; `lit`: the cursor or the hand is on it; `faded`: something else is looked at. */
export type State = 'plain' | 'lit' | 'faded';
/** What is drawn round a thing. */
export type Rim = 'lit' | Severity;

interface Look {
  readonly tint: (palette: Palette, metal: Rgb) => Rgb;
  /** 1: solid. */
  readonly opacity: number;
  /** How sharply it shines, 0: dull. */
  readonly shine: number;
  /** Bands across it, mm wide; 0: none. What stands in the car already is banded. */
  readonly bands: number;
}

const solid = (tint: Look['tint'], shine = 40): Look => ({ tint, opacity: 1, shine, bands: 0 });
const glass = (tint: Look['tint'], opacity: number): Look => ({ tint, opacity, shine: 10, bands: 0 });

const LOOKS: Readonly<Record<ThingKind, Look>> = {
  tube: solid((_, metal) => metal, 60),
  'existing-tube': {
    tint: (p, metal) => mixed(metal, p.background, p.contrast ? 0 : 0.2),
    opacity: 1,
    shine: 8,
    bands: 70,
  },
  foot: solid((p, metal) => mixed(metal, p.blue, 0.24)),
  plate: solid((p, metal) => mixed(metal, p.blue, 0.14)),
  gusset: solid((p, metal) => mixed(metal, p.green, 0.36)),
  collar: solid((p, metal) => mixed(metal, p.green, 0.2)),
  fitting: solid((p, metal) => mixed(metal, p.yellow, 0.4)),
  vent: solid((p) => mixed(p.purple, p.foreground, 0.1), 4),
  hole: solid((p) => mixed(p.background, p.foreground, 0.12), 0),
  padding: { tint: (p) => mixed(p.background, p.foreground, 0.3), opacity: 1, shine: 0, bands: 0 },
  seat: glass((p) => mixed(p.blue, p.foreground, 0.25), 0.3),
  helmet: glass((p) => mixed(p.yellow, p.foreground, 0.2), 0.5),
  strap: solid((p) => mixed(p.orange, p.background, 0.15), 2),
  panel: glass((p) => p.muted, 0.22),
  anchor: solid((p, metal) => mixed(metal, p.orange, 0.5)),
  space: glass((p) => p.purple, 0.6),
};

/** Solid kinds hide what is behind them and may be cut by the section plane with their cut face shown. */
export const isSolid = (kind: ThingKind): boolean => LOOKS[kind].opacity === 1;

/** A rim shows round these from wherever they are looked at. */
export const isRound = (kind: ThingKind): boolean => ROUND.has(kind);
const ROUND: ReadonlySet<ThingKind> = new Set(['tube', 'existing-tube', 'padding', 'helmet', 'space']);

export const rgbOf = (palette: Palette, rim: Rim): Rgb => (rim === 'lit' ? palette.accent : palette[rim]);

/** Bands in the thing's own space, and the cut face of the metal: what is seen of a closed body from inside is its cut. */
function finish(material: MeshPhongMaterial, bands: number, cut: Color): void {
  material.onBeforeCompile = (shader) => {
    shader.uniforms['cut'] = { value: cut };
    shader.uniforms['bands'] = { value: bands };
    shader.vertexShader = shader.vertexShader
      .replace('#include <common>', '#include <common>\nvarying vec3 vPlace;')
      .replace('#include <begin_vertex>', '#include <begin_vertex>\nvPlace = position;');
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', '#include <common>\nuniform vec3 cut;\nuniform float bands;\nvarying vec3 vPlace;')
      .replace(
        '#include <color_fragment>',
        `#include <color_fragment>
        if (bands > 0.0) {
          float along = fract((vPlace.x + vPlace.y + vPlace.z) / (2.0 * bands));
          diffuseColor.rgb *= along < 0.5 ? 1.0 : 0.55;
        }`,
      )
      .replace(
        '#include <opaque_fragment>',
        `#include <opaque_fragment>
        if (!gl_FrontFacing) gl_FragColor = vec4(cut, 1.0);`,
      );
  };
  material.customProgramCacheKey = () => 'thing';
}

/** Draws a body's back, grown by some pixels: what shows of it is a rim round the body. */
const RIM_VERTEX = `
#include <common>
#include <clipping_planes_pars_vertex>
uniform float width;
uniform vec2 size;
void main() {
  #include <begin_vertex>
  #include <project_vertex>
  vec2 away = (normalMatrix * normal).xy;
  float length2 = length(away);
  if (length2 > 1e-4) gl_Position.xy += away / length2 * width * 2.0 / size * gl_Position.w;
  #include <clipping_planes_vertex>
}`;
const RIM_FRAGMENT = `
#include <clipping_planes_pars_fragment>
uniform vec3 ink;
void main() {
  #include <clipping_planes_fragment>
  gl_FragColor = vec4(ink, 1.0);
  #include <colorspace_fragment>
}`;

/** How solid what stands back still is. */
const FADED = 0.16;

/** Pixels: what is only told is quieter than what has to be mended. */
const RIM_WIDTH: Readonly<Record<Rim, number>> = { lit: 3.5, error: 3, warning: 2.5, information: 1.3, hint: 1 };

/** All materials of a theme. Made once a theme; the section plane and the picture's size are set on them. */
export class Looks {
  readonly size = new Vector2(1, 1);
  private readonly things = new Map<string, MeshPhongMaterial>();
  private readonly rims = new Map<string, ShaderMaterial>();
  private readonly seen = new Map<Rim, MeshBasicMaterial>();
  private readonly lines = new Map<string, LineBasicMaterial>();
  private masked: MeshBasicMaterial | null = null;
  private planes: Plane[] = [];

  /** @param before of the theme that was: section and size go on */
  constructor(
    readonly palette: Palette,
    before: Looks | null = null,
  ) {
    if (!before) return;
    this.size.copy(before.size);
    this.planes = before.planes;
  }

  private get metal(): Rgb {
    const { background, foreground, blue, dark, contrast } = this.palette;
    const grey = mixed(background, foreground, contrast ? 0.6 : dark ? 0.78 : 0.5);
    return mixed(grey, blue, 0.07);
  }

  /** Of the body of a thing; `worst` tints a space that has a finding. */
  thing(kind: ThingKind, state: State, worst: Severity | null): MeshPhongMaterial {
    const key = `${kind} ${state} ${kind === 'space' ? String(worst) : ''}`;
    const held = this.things.get(key);
    if (held) return held;
    const made = this.makeThing(kind, state, worst);
    this.things.set(key, made);
    return made;
  }

  private makeThing(kind: ThingKind, state: State, worst: Severity | null): MeshPhongMaterial {
    const { palette } = this;
    const look = LOOKS[kind];
    const own = kind === 'space' && worst ? palette[worst] : look.tint(palette, this.metal);
    // What is wrong with a space is told by its tint alone: it keeps that.
    const tint = state === 'lit' && kind !== 'space' ? mixed(own, palette.accent, 0.62) : own;
    const opacity = state === 'faded' ? look.opacity * FADED : look.opacity;
    const material = new MeshPhongMaterial({
      color: colour(tint),
      specular: new Color(look.shine / 400, look.shine / 400, look.shine / 400),
      shininess: look.shine,
      opacity,
      transparent: opacity < 1,
      depthWrite: opacity === 1,
      depthTest: kind !== 'space',
      side: FrontSide,
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
    if (state === 'lit' && kind !== 'space')
      material.emissive = colour(palette.accent).multiplyScalar(palette.dark ? 0.16 : 0.08);
    finish(material, look.bands, colour(mixed(own, palette.dark ? palette.foreground : palette.background, 0.55)));
    this.cut(material, isSolid(kind));
    return material;
  }

  private cut(material: MeshPhongMaterial, body: boolean): void {
    const sides = this.planes.length > 0 && body ? DoubleSide : FrontSide;
    material.clippingPlanes = this.planes;
    if (material.side !== sides) {
      material.side = sides;
      material.needsUpdate = true;
    }
  }

  /** Round a thing, as wide on the picture however near it is. */
  rim(rim: Rim, kind: ThingKind): ShaderMaterial {
    const solid = isSolid(kind);
    const key = `${rim} ${String(solid)}`;
    let made = this.rims.get(key);
    if (!made) {
      made = new ShaderMaterial({
        vertexShader: RIM_VERTEX,
        fragmentShader: RIM_FRAGMENT,
        uniforms: {
          width: { value: RIM_WIDTH[rim] },
          size: { value: this.size },
          ink: { value: colour(rgbOf(this.palette, rim)) },
        },
        side: BackSide,
        // Behind its mask, so after all that is solid.
        transparent: !solid,
        clipping: true,
        clippingPlanes: this.planes,
      });
      this.rims.set(key, made);
    }
    return made;
  }

  /** Keeps the rim of a body that is seen through to its outline: where the body is, nothing of the rim is drawn. */
  mask(): MeshBasicMaterial {
    return (this.masked ??= new MeshBasicMaterial({
      colorWrite: false,
      transparent: true,
      clippingPlanes: this.planes,
    }));
  }

  /** What is seen of a thing through others that stand before it. */
  through(rim: Rim): MeshBasicMaterial {
    let made = this.seen.get(rim);
    if (!made) {
      made = new MeshBasicMaterial({
        color: colour(rgbOf(this.palette, rim)),
        transparent: true,
        opacity: 0.3,
        depthFunc: GreaterDepth,
        depthWrite: false,
        clippingPlanes: this.planes,
      });
      this.seen.set(rim, made);
    }
    return made;
  }

  /** Of cut edges and outlines; `rim`: of something flat, whose rim is not seen square on. */
  line(state: State, rim: Rim | null): LineBasicMaterial {
    const key = `${state} ${String(rim)}`;
    let made = this.lines.get(key);
    if (!made) {
      const { palette } = this;
      const ink = palette.contrast
        ? palette.foreground
        : mixed(palette.background, palette.foreground, palette.dark ? 0.02 : 0.85);
      made = new LineBasicMaterial({
        color: colour(rim ? rgbOf(palette, rim) : state === 'lit' ? palette.accent : ink),
        transparent: state === 'faded',
        opacity: state === 'faded' ? 0.12 : 1,
        clippingPlanes: this.planes,
      });
      this.lines.set(key, made);
    }
    return made;
  }

  /** Cuts everything off on the far side of a plane; null: nothing is cut. */
  section(plane: Plane | null): void {
    this.planes = plane ? [plane] : [];
    for (const [key, material] of this.things) this.cut(material, isSolid(key.split(' ')[0] as ThingKind));
    if (this.masked) this.masked.clippingPlanes = this.planes;
    for (const map of [this.rims, this.seen, this.lines]) {
      for (const material of map.values()) material.clippingPlanes = this.planes;
    }
  }

  dispose(): void {
    this.masked?.dispose();
    for (const map of [this.things, this.rims, this.seen, this.lines]) {
      for (const material of map.values()) material.dispose();
    }
  }
}
