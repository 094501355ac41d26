import { defineConfig } from 'vitest/config';

// CI wants the counts as well as the words.
const report = process.env.GAUGEWALK_TEST_REPORT;

const timed = 'tests/browser/speed.browser.ts';

export default defineConfig({
  test: {
    ...(report ? { reporters: ['default', 'json'], outputFile: { json: report } } : {}),
    projects: [
      {
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          globalSetup: ['tests/store/installed.ts'],
          testTimeout: 120_000,
          hookTimeout: 180_000,
          // Left to itself Vitest keeps one core free, which is half of two.
          maxWorkers: '100%',
          // Files of one worker share what they import: loading it anew for each was a third of the time.
          isolate: false,
        },
      },
      {
        // In a real browser against the real server: these need the build.
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.browser.ts'],
          exclude: [timed],
          globalSetup: ['tests/browser/chromium.ts'],
          testTimeout: 300_000,
          hookTimeout: 120_000,
          // A person waits most of the time, so four of them fit on two cores, once the others are done.
          maxWorkers: 4,
          // as above
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        // A touch is timed on a machine that does nothing else.
        test: {
          name: 'timed',
          include: [timed],
          globalSetup: ['tests/browser/chromium.ts'],
          testTimeout: 300_000,
          hookTimeout: 120_000,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
