import astro from 'eslint-plugin-astro';
import tseslint from 'typescript-eslint';
import { rooms } from './src/commands/rooms.ts';

/** For rooms whose results depend on nothing but what they are given. */
const PURE = {
  'no-console': 'error',
  'no-restricted-imports': [
    'error',
    {
      patterns: [
        {
          group: ['node:*', 'astro:*', 'astro', 'astro/*'],
          message: 'the pure rooms touch no file and no page',
        },
      ],
    },
  ],
  'no-restricted-globals': [
    'error',
    ...['Date', 'process', 'performance', 'setTimeout', 'fetch', 'Intl'].map((name) => ({
      name,
      message: 'the pure rooms know no clock, no machine and no locale',
    })),
  ],
  'no-restricted-properties': [
    'error',
    { object: 'Math', property: 'random', message: 'same input, same result' },
    { object: 'crypto', property: 'randomUUID', message: 'same input, same result' },
  ],
  'no-restricted-syntax': [
    'error',
    {
      selector: 'CallExpression[callee.property.name=/^(toLocale|localeCompare)/]',
      message: 'results must not depend on the locale',
    },
  ],
};

/** Pages that are kept from build to build as long as their own data is the same: they see no other. */
const OWN_PAGES = {
  'no-restricted-imports': [
    'error',
    {
      patterns: [
        {
          group: ['**/site-data.ts'],
          importNames: ['siteData'],
          message: 'pages of one mold or bait know nothing of the rest of the catalogue',
        },
        { group: ['astro:content'], message: 'pages of one mold or bait read no collection' },
      ],
    },
  ],
};

const SIZE = {
  'max-lines': ['error', { max: 400 }],
  'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
};

export default tseslint.config(
  { ignores: ['dist/', '.vitest/', 'node_modules/', '.astro/', '.cache/', 'coverage/'] },
  ...tseslint.configs.strict,
  ...astro.configs.recommended,
  {
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    plugins: { partline: { rules: { rooms } } },
    rules: {
      ...SIZE,
      'partline/rooms': 'error',
      eqeqeq: 'error',
      'no-var': 'error',
      'prefer-const': 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['src/**/*.ts'],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
    },
  },
  { files: ['src/core/**', 'src/drawing/**', 'src/render/**'], rules: PURE },
  { files: ['src/pages/molds/**', 'src/pages/baits/**', 'src/site/own/**'], rules: OWN_PAGES },
  // Kernels index typed arrays in loops whose bounds are plain to see.
  {
    files: [
      'src/core/**',
      'src/drawing/**',
      'src/render/**',
      'src/commands/demo-meshes/**',
      'src/sheet/fill-*.ts',
    ],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  // A declaration file with a top-level import would stop being ambient.
  { files: ['**/*.d.ts'], rules: { '@typescript-eslint/consistent-type-imports': 'off' } },
  {
    files: ['**/*.astro'],
    rules: { 'max-lines-per-function': 'off', 'astro/no-set-html-directive': 'error' },
  },
  {
    files: ['tests/**'],
    rules: { 'max-lines-per-function': 'off', '@typescript-eslint/no-non-null-assertion': 'off' },
  },
);
