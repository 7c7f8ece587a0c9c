/** Which stages ran again after one edit: the laziness that the speed rests on. */
import { Project } from '../../server/project/pipeline';
import { editTarget, generateCar } from './generate';

export async function measureReruns(): Promise<readonly (readonly string[])[]> {
  const text = generateCar(3000);
  const project = new Project();
  const run = async (now: string): Promise<string> => {
    const sources = await project.load({ read: () => Promise.resolve({ kind: 'outside' }) }, 'bench.cage', now);
    const { runs } = project.analyse(sources);
    return Object.entries(runs)
      .map(([stage, count]) => `${stage} ${count}`)
      .join(', ');
  };
  const target = editTarget(text, 3);
  const rows: string[][] = [['first pass', await run(text)]];
  rows.push(['nothing', await run(text)]);
  rows.push(['a comment at the top', await run(`# a line\n${text}`)]);
  await run(text);
  rows.push(['one height in one module', await run(`${text.slice(0, target.start)}779.5${text.slice(target.end)}`)]);
  await run(text);
  rows.push([
    'a seat renamed',
    await run(text.replaceAll('driver-5 ', 'pilot-5 ').replaceAll('seat driver-5\n', 'seat pilot-5\n')),
  ]);
  return rows;
}
