/** Writes the files that are made from the vocabulary: `npm run generate`. A test holds them fresh. */
import { Buffer } from 'node:buffer';
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const entry = fileURLToPath(new URL('generated.ts', import.meta.url));
const { outputFiles } = await build({
  entryPoints: [entry],
  bundle: true,
  write: false,
  format: 'esm',
  platform: 'node',
});
const code = Buffer.from(outputFiles[0].contents).toString('base64');
const { generatedFiles } = await import(`data:text/javascript;base64,${code}`);
for (const [name, text] of Object.entries(generatedFiles())) {
  writeFileSync(fileURLToPath(new URL(`../${name}`, import.meta.url)), text);
  console.log(`grammar/${name}`);
}
