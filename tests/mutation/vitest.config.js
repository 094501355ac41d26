import { defineConfig } from 'vitest/config';
import { areas } from './areas.js';

const area = areas[process.env.GAUGEWALK_MUTATE];

export default defineConfig({
  test: { include: area.tests, exclude: area.without, testTimeout: 60_000 },
});
