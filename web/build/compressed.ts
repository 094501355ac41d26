import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';

/** Lays every text file beside itself as `.br` and `.gz`, so that the server sends it compressed without compressing. */
export function compressed(): Plugin {
  let folder = '';
  return {
    name: 'compressed',
    apply: 'build',
    configResolved: (config) => {
      folder = config.build.outDir;
    },
    closeBundle() {
      for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
        if (!entry.isFile() || !/\.(js|css|json|html|svg|webmanifest)$/.test(entry.name)) continue;
        const path = join(entry.parentPath, entry.name);
        const content = readFileSync(path);
        writeFileSync(`${path}.br`, brotliCompressSync(content));
        writeFileSync(`${path}.gz`, gzipSync(content, { level: 9 }));
      }
    },
  };
}
