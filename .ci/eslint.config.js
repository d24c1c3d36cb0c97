import { fileURLToPath } from 'node:url'
import tseslint from 'typescript-eslint'

const root = fileURLToPath(new URL('..', import.meta.url))

export default tseslint.config(
  { ignores: ['dist/**', 'outputs/**', 'tests/fixtures/**'] },
  ...tseslint.configs.recommended,
  {
    languageOptions: { parserOptions: { project: './tests/tsconfig.json', tsconfigRootDir: root } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/no-unused-vars': ['error', { ignoreRestSiblings: true }],
      eqeqeq: 'error',
      'no-console': 'error',
      'max-params': ['error', 4],
    },
  },
  { files: ['src/cli/**', 'tests/**', 'src/**/*.mjs'], rules: { 'no-console': 'off' } },
  {
    files: ['src/**/*.{mjs,cjs}', 'tests/**/*.mjs'],
    languageOptions: { parserOptions: { project: null } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'off',
      '@typescript-eslint/switch-exhaustiveness-check': 'off',
      '@typescript-eslint/no-require-imports': 'off',
    },
  },
)
