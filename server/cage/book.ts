/** Materials and sections: what the shop holds. The same on both sides of the car. */
import { DENSITY, STRESS } from '../../grammar/units';
import type { Material, Section } from './cage';
import type { FactReader } from './facts';
import type { Definition } from './names';
import { Page } from './page';
import type { Reporter } from './reporter';
import type { Solver } from './solve';

/** Mild steel, where nothing is said: 205 GPa, 7850 kg/m3, strength unknown (design handbook values). */
const MILD_STEEL: Material = {
  name: null,
  yield: null,
  tensile: null,
  modulus: 205_000,
  density: 7850,
  kind: null,
  carbon: null,
  manganese: null,
  others: null,
};

/** A material that is named but not known. */
const UNKNOWN: Material = { ...MILD_STEEL, density: null };

/** kg/mm3 to kg/m3. */
const PER_CUBIC_METRE = 1e9;
/** Larger is a pipeline, mm. */
const LARGEST_TUBE = 500;

export class Book {
  private readonly materials = new Map<Definition, Material>();
  private readonly sections = new Map<Definition, Section | null>();

  constructor(
    private readonly facts: FactReader,
    private readonly solver: Solver,
    private readonly reporter: Reporter,
  ) {}

  /** Reads a material or a section, and tells what is wrong with it. */
  read(definition: Definition): void {
    if (definition.space === 'material') this.material(definition);
    if (definition.space === 'section') this.section(definition);
  }

  /** Forgets what a definition was. */
  forget(definition: Definition): void {
    this.materials.delete(definition);
    this.sections.delete(definition);
  }

  private page(definition: Definition): Page {
    this.solver.prepare(definition.needs, 'real');
    return new Page(this.facts, this.solver, this.reporter, definition, definition.name, false);
  }

  material(definition: Definition): Material {
    const kept = this.materials.get(definition);
    if (kept !== undefined) return kept;
    const page = this.page(definition);
    const density = page.figure('density', 'density', DENSITY);
    const material: Material = {
      name: definition.name,
      yield: page.figure('yield', 'yield', STRESS),
      tensile: page.figure('tensile', 'tensile', STRESS),
      modulus: page.figure('modulus', 'modulus', STRESS) ?? MILD_STEEL.modulus,
      density: density !== null ? density * PER_CUBIC_METRE : page.isWritten('density') ? null : MILD_STEEL.density,
      kind: page.word('kind', 'kind'),
      carbon: page.share('carbon'),
      manganese: page.share('manganese'),
      others: page.share('others'),
    };
    this.materials.set(definition, material);
    return material;
  }

  section(definition: Definition): Section | null {
    const kept = this.sections.get(definition);
    if (kept !== undefined) return kept;
    const page = this.page(definition);
    const section = this.size(definition, page);
    this.sections.set(definition, section);
    return section;
  }

  private size(definition: Definition, page: Page): Section | null {
    const odFact = page.fact('od') === null ? 'size' : 'od';
    const wallFact = page.fact('wall') === null ? 'size' : 'wall';
    const od = page.length(odFact, 'od', true);
    const wall = page.length(wallFact, 'wall', true);
    const target = this.facts.target(definition, 'material', 'material');
    const none = page.isWritten('material') ? UNKNOWN : MILD_STEEL;
    const material = target === null ? none : this.material(target.definition);
    if (od === null || wall === null) return null;
    const figures = { od: { value: od, unit: 'mm' }, wall: { value: wall, unit: 'mm' } } as const;
    if (od <= 0 || od > LARGEST_TUBE) return page.tellAt(page.bound(odFact, 'od'), 'section.od', figures);
    if (wall <= 0 || 2 * wall >= od) return page.tellAt(page.bound(wallFact, 'wall'), 'section.wall', figures);
    return { name: definition.name, od, wall, material };
  }
}
