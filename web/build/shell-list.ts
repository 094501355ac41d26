import { createHash } from 'node:crypto';
import type { Plugin } from 'vite';

/**
 * Writes `offline.json`: every file the client is made of and a version over their contents. The service worker keeps
 * exactly these; a changed file makes a new version. The version also ends the worker itself: a browser looks for a new
 * client only when the worker's own bytes have changed.
 */
export function shellList(): Plugin {
  return {
    name: 'shell-list',
    enforce: 'post',
    generateBundle(_, bundle) {
      const hash = createHash('sha256');
      const files = ['/icon.svg', '/gaugewalk.webmanifest'];
      for (const file of Object.values(bundle).sort((a, b) => (a.fileName < b.fileName ? -1 : 1))) {
        hash.update(file.fileName).update(file.type === 'chunk' ? file.code : file.source);
        if (file.fileName !== 'sw.js' && !file.fileName.endsWith('.map'))
          files.push(`/${file.fileName}`);
      }
      const version = hash.digest('hex').slice(0, 16);
      const worker = bundle['sw.js'];
      if (worker?.type === 'chunk') worker.code += `// ${version}\n`;
      const text = JSON.stringify({ version, files });
      this.emitFile({ type: 'asset', fileName: 'offline.json', source: text });
    },
  };
}
