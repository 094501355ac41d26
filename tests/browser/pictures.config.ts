import { defineConfig } from 'vitest/config';

/** Draws the pictures of the README anew: `npx vitest run -c tests/browser/pictures.config.ts`. */
export default defineConfig({
  test: { include: ['tests/browser/pictures.draw.ts'], testTimeout: 120_000, hookTimeout: 60_000 },
});
