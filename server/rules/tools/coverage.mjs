/** Writes the table of what the rulebooks cover, and the number of rules by book and by state of source into the README. */
import { Buffer } from 'node:buffer';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const entry = fileURLToPath(new URL('../coverage/table.ts', import.meta.url));
const { outputFiles } = await build({
  entryPoints: [entry],
  bundle: true,
  write: false,
  format: 'esm',
  platform: 'node',
});
const code = Buffer.from(outputFiles[0].contents).toString('base64');
const { coveragePage, booksTable } = await import(`data:text/javascript;base64,${code}`);
writeFileSync(fileURLToPath(new URL('../coverage/coverage.md', import.meta.url)), coveragePage());
const table = booksTable().join('\n');
const readme = fileURLToPath(new URL('../../../README.md', import.meta.url));
const text = readFileSync(readme, 'utf8');
writeFileSync(
  readme,
  text.replace(/^\| book \| quantities \|.*\n(?:\|.*\n)*/m, () => `${table}\n`),
);
console.log(table);
