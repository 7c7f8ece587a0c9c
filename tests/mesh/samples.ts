/** The sample cars, analysed. */
import { readFileSync } from 'node:fs';
import type { Analysis } from '../../server/project/project';
import { analyse } from '../support/analyse';

export const SAMPLES = ['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'] as const;
const USED = ['curlew-seats.cage', 'every-finding-part.cage', 'heron-club.cage'];

const textOf = (name: string): string => readFileSync(new URL(`../../samples/${name}`, import.meta.url), 'utf8');

export const sampleCar = (name: (typeof SAMPLES)[number]): Promise<Analysis> =>
  analyse(textOf(`${name}.cage`), Object.fromEntries(USED.map((file) => [file, textOf(file)])), `${name}.cage`);
