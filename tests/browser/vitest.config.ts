import { defineConfig } from 'vitest/config';

/** Tests in a real browser against the real server; they need `npm run build` before and a Chromium on the machine. */
export default defineConfig({
  test: {
    include: ['tests/browser/**/*.browser.ts'],
    testTimeout: 180_000,
    hookTimeout: 60_000,
    fileParallelism: false,
  },
});
