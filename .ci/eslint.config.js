import tseslint from 'typescript-eslint'

export default tseslint.config(
  { ignores: ['dist/**', 'outputs/**', 'tests/fixtures/**'] },
  ...tseslint.configs.recommended,
  {
    languageOptions: { parserOptions: { project: './tests/tsconfig.json' } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      eqeqeq: 'error',
      'no-console': 'error',
      'max-params': ['error', 4],
    },
  },
  { files: ['src/cli/**', 'tests/**', 'src/**/*.mjs'], rules: { 'no-console': 'off' } },
)
