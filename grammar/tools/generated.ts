/** Every file that is made from the vocabulary, by its name in `grammar/`. */
import { referencePage } from './reference';
import { snippets } from './snippets';
import { languageConfiguration, textMateGrammar } from './textmate';

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** File names and their whole text. The same build gives the same bytes. */
export const generatedFiles = (): Readonly<Record<string, string>> => ({
  'cage.tmLanguage.json': json(textMateGrammar()),
  'language-configuration.json': json(languageConfiguration()),
  'snippets.json': json(snippets()),
  'reference.md': referencePage(),
});
