/** What the shop holds, by name: planes, materials, sections, dies and lets. Of two with one name the first counts. */
import type { Book } from './book';
import type { Cage, Die, LetValue, Material, Origin, Plane, Section } from './cage';
import type { Definition } from './names';
import type { Solver } from './solve';

type Shop = Pick<Cage, 'planes' | 'materials' | 'sections' | 'dies' | 'lets'>;

/** `definitions`: all that name something, worked out. Rulebooks stand in `rulebooks.ts`. */
export function shopOf(definitions: readonly Definition[], solver: Solver, book: Book): Shop {
  const planes = new Map<string, Plane>();
  const materials = new Map<string, { value: Material; origin: Origin }>();
  const sections = new Map<string, { value: Section | null; origin: Origin }>();
  const dies = new Map<string, { value: Die | null; origin: Origin }>();
  const lets = new Map<string, { value: LetValue | null; origin: Origin }>();
  for (const definition of definitions) {
    const { name, space, origin, repeated } = definition;
    if (space === 'thing' || space === 'book' || repeated) continue;
    if (space === 'material') materials.set(name, { value: book.material(definition), origin });
    else if (space === 'section') sections.set(name, { value: book.section(definition), origin });
    else if (space === 'die') dies.set(name, { value: solver.dieOf(definition), origin });
    else if (space === 'let') lets.set(name, { value: solver.letFigure(definition), origin });
    else {
      const plane = solver.planeOf(definition, 'real');
      if (plane !== null) planes.set(name, { ...plane, name, origin });
    }
  }
  return { planes, materials, sections, dies, lets };
}
