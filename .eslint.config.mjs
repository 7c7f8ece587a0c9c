import js from '@eslint/js';
import tseslint from 'typescript-eslint';

/** The core is everything that must not know the clock, chance or the host. */
const core = [
  'grammar/*.ts',
  'server/{centreline,cage,geometry,rules,fixes,drawing,mesh,papers,view,review,project,editor}/**/*.ts',
];

export default tseslint.config(
  { ignores: ['**/dist/**', '.build/**', 'node_modules/**'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      eqeqeq: 'error',
      'no-console': 'error',
    },
  },
  {
    files: core,
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The core reads no clock.' },
        { object: 'Math', property: 'random', message: 'The core rolls no dice.' },
      ],
      'no-restricted-globals': ['error', 'Date', 'setTimeout', 'setInterval', 'fetch', 'process', 'console'],
    },
  },
  {
    files: ['server/cli/**/*.ts', 'tests/**/*', 'grammar/tools/**', 'client/tools/**', '**/*.mjs'],
    rules: { 'no-console': 'off' },
  },
  {
    files: ['**/*.mjs'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        URL: 'readonly',
        setTimeout: 'readonly',
      },
    },
  },
);
