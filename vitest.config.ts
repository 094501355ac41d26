import { defineConfig } from 'vitest/config';

// CI wants the counts as well as the words.
const report = process.env.GAUGEWALK_TEST_REPORT;

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    ...(report ? { reporters: ['default', 'json'], outputFile: { json: report } } : {}),
  },
});
