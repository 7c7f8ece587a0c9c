/** The picture itself: renderer, camera, light; a frame is drawn when something asks for one, and never otherwise. */
import {
  DirectionalLight,
  Group,
  HemisphereLight,
  Matrix4,
  OrthographicCamera,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Point3 } from '../../server/view/model';
import type { Looks } from './looks';
import { colour, type Palette } from './palette';
import { basisOf, between, FIELD, FIRST_POSE, halfHeight, type Pose } from './pose';

/** A place on the picture in CSS pixels, and how far it is from the eye in mm; `ahead`: it is before the eye. */
export interface OnPicture {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly ahead: boolean;
}

const GLIDE = 220;
/** Pixels of the picture to one of the page where the processor draws, and ms after which the camera rests. */
const MOVING = 0.6;
const RESTING = 1.5;
const SETTLE = 180;
const MOST_SETTLE = 2500;
/** What is left of a long wait after the next frame. */
const FADE = 0.8;

export class Stage {
  readonly scene = new Scene();
  private readonly perspective = new PerspectiveCamera((FIELD * 180) / Math.PI, 1, 10, 50_000);
  private readonly parallel = new OrthographicCamera(-1, 1, 1, -1, 10, 50_000);
  private readonly lights = new Group();
  private readonly renderer: WebGLRenderer | null;
  /**
   * Without a graphics card every pixel costs: while the camera moves there are fewer of them, and when it rests the
   * picture is drawn once with more, which smooths its edges as a graphics card would.
   */
  private readonly slow: boolean;
  private settling: ReturnType<typeof setTimeout> | undefined;
  /**
   * ms that frames had to be waited for of late: long while those before are still being drawn. One that comes at once
   * among slow ones tells nothing, so what was long fades.
   */
  private pace = 0;
  private asked = false;
  private glide: { readonly from: Pose; readonly to: Pose; readonly since: number } | null = null;
  private held: Pose = FIRST_POSE;
  /** Of the car, mm: how deep the picture has to be. */
  private reach = 3000;
  width = 1;
  height = 1;
  /** Called after the bodies are drawn: marks and labels follow the camera. */
  after: () => void = () => undefined;
  /** Called when the camera has come to rest somewhere else. */
  rested: (pose: Pose) => void = () => undefined;

  constructor(readonly canvas: HTMLCanvasElement) {
    this.slow = isSlow();
    this.renderer = makeRenderer(canvas, !this.slow);
    const key = new DirectionalLight(0xffffff, 2.1);
    key.position.set(-0.5, 0.9, 1);
    const side = new DirectionalLight(0xffffff, 0.7);
    side.position.set(1, -0.1, 0.5);
    this.lights.add(key, key.target, side, side.target);
    const sky = new HemisphereLight(0xffffff, 0x8a8a8a, 1.15);
    sky.position.set(0, 0, 1);
    this.scene.add(sky, this.lights);
    canvas.addEventListener('webglcontextlost', (event) => {
      event.preventDefault();
    });
    canvas.addEventListener('webglcontextrestored', () => {
      this.invalidate();
    });
    document.addEventListener('visibilitychange', () => {
      if (!document.hidden) this.invalidate();
    });
  }

  /** Whether this machine can draw the picture at all. */
  get works(): boolean {
    return this.renderer !== null;
  }

  get pose(): Pose {
    return this.held;
  }

  /** Looks from there at once. */
  set pose(pose: Pose) {
    this.glide = null;
    this.held = pose;
    this.moves();
    this.invalidate();
    this.rested(pose);
  }

  /** The camera moves: coarser pictures until it rests. */
  private moves(): void {
    if (!this.slow) return;
    clearTimeout(this.settling);
    this.setRatio(MOVING);
    // Where a frame takes longer than that, the next one is waited for.
    this.settling = setTimeout(
      () => {
        this.setRatio(RESTING);
        this.invalidate();
      },
      Math.min(MOST_SETTLE, Math.max(SETTLE, 2.5 * this.pace)),
    );
  }

  private setRatio(ratio: number): void {
    if (this.renderer && this.renderer.getPixelRatio() !== ratio) this.renderer.setPixelRatio(ratio);
  }

  /** Goes there; at once for those who want no motion. */
  goTo(pose: Pose): void {
    if (
      matchMedia('(prefers-reduced-motion: reduce)').matches ||
      document.body.classList.contains('vscode-reduce-motion')
    ) {
      this.pose = pose;
      return;
    }
    this.glide = { from: this.held, to: pose, since: performance.now() };
    this.moves();
    this.invalidate();
    this.rested(pose);
  }

  get aspect(): number {
    return this.width / Math.max(1, this.height);
  }

  set extent(mm: number) {
    this.reach = Math.max(500, mm);
  }

  restyle(palette: Palette): void {
    this.scene.background = colour(palette.background);
    this.invalidate();
  }

  resize(width: number, height: number, looks: Looks): void {
    if (width < 1 || height < 1) return;
    this.width = width;
    this.height = height;
    this.renderer?.setPixelRatio(this.slow ? RESTING : Math.min(2, devicePixelRatio || 1));
    this.renderer?.setSize(width, height, false);
    looks.size.set(width, height);
    this.invalidate();
  }

  /** Asks for one frame; asked twice before it comes, it comes once. Nothing is drawn while nobody can see it. */
  invalidate(): void {
    if (this.asked || document.hidden) return;
    this.asked = true;
    const since = performance.now();
    requestAnimationFrame((now) => {
      this.asked = false;
      this.pace = Math.max(FADE * this.pace, performance.now() - since);
      if (this.glide) {
        const share = Math.min(1, Math.max(0, (now - this.glide.since) / GLIDE));
        this.held = between(this.glide.from, this.glide.to, share * share * (3 - 2 * share));
        this.moves();
        if (share < 1) this.invalidate();
        else this.glide = null;
      }
      this.draw();
    });
  }

  private get camera(): PerspectiveCamera | OrthographicCamera {
    return this.held.parallel ? this.parallel : this.perspective;
  }

  private aim(): void {
    const { camera, held: pose } = this;
    const { right, up, toward } = basisOf(pose);
    const eye = new Vector3(...pose.target).addScaledVector(toward, pose.distance);
    camera.position.copy(eye);
    camera.quaternion.setFromRotationMatrix(new Matrix4().makeBasis(right, up, toward));
    const deep = new Vector3(...pose.target).length() + this.reach;
    if (camera instanceof PerspectiveCamera) {
      camera.near = Math.max(pose.distance / 200, pose.distance - deep);
      camera.far = pose.distance + deep;
      camera.aspect = this.aspect;
    } else {
      const half = halfHeight(pose);
      [camera.left, camera.right] = [-half * this.aspect, half * this.aspect];
      [camera.top, camera.bottom] = [half, -half];
      [camera.near, camera.far] = [pose.distance - deep, pose.distance + deep];
    }
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld(true);
    this.lights.quaternion.copy(camera.quaternion);
  }

  /** Draws now. */
  draw(): void {
    this.aim();
    this.renderer?.render(this.scene, this.camera);
    this.after();
    // In the page's own timing: when the picture was drawn last.
    performance.clearMarks('cagewright.frame');
    performance.mark('cagewright.frame');
  }

  /** Where a place of the car is on the picture. */
  project(at: Point3 | Vector3): OnPicture {
    const place = at instanceof Vector3 ? at.clone() : new Vector3(at[0], at[1], at[2]);
    const seen = place.clone().applyMatrix4(this.camera.matrixWorldInverse);
    const ahead = this.held.parallel || seen.z < -1;
    place.project(this.camera);
    return { x: ((place.x + 1) / 2) * this.width, y: ((1 - place.y) / 2) * this.height, depth: -seen.z, ahead };
  }

  /** From the eye through a point of the picture, CSS pixels. */
  ray(x: number, y: number): Raycaster {
    const caster = new Raycaster();
    caster.setFromCamera(new Vector2((x / this.width) * 2 - 1, 1 - (y / this.height) * 2), this.camera);
    return caster;
  }

  /** How many mm one pixel is at a place. */
  scaleAt(at: Point3 | Vector3): number {
    const { depth } = this.project(at);
    const far = this.held.parallel ? this.held.distance : Math.max(1, depth);
    return (2 * Math.tan(FIELD / 2) * far) / Math.max(1, this.height);
  }
}

/** Names by which programs that draw without a graphics card go. */
const SLOW = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Whether pictures here are worked out by the processor. */
function isSlow(): boolean {
  const gl = document.createElement('canvas').getContext('webgl2');
  const told = gl?.getExtension('WEBGL_debug_renderer_info');
  const name: unknown = told ? gl?.getParameter(told.UNMASKED_RENDERER_WEBGL) : '';
  gl?.getExtension('WEBGL_lose_context')?.loseContext();
  return typeof name === 'string' && SLOW.test(name);
}

function makeRenderer(canvas: HTMLCanvasElement, antialias: boolean): WebGLRenderer | null {
  try {
    const renderer = new WebGLRenderer({ canvas, antialias, powerPreference: 'low-power' });
    renderer.localClippingEnabled = true;
    return renderer;
  } catch {
    return null;
  }
}
