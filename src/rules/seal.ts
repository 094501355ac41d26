import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { z } from 'zod';
import type { Finding } from '../../shared/ruleset/finding.ts';

/** The file that closes a published version: what every file of the folder was when it was published. */
export const SEAL = 'published.json';

const sealSchema = z.strictObject({
  version: z.string(),
  /** the version it was compared with, and why it was published although it names fewer causes rightly */
  from: z.string().nullable(),
  reason: z.string().nullable(),
  /** SHA-256 of every file, by its path in the folder */
  files: z.record(z.string(), z.string()),
});
export type Seal = z.infer<typeof sealSchema>;

/** SHA-256 of every file of a folder but the seal, line ends taken as one so that any checkout gives the same. */
export function sumsOf(folder: string): Record<string, string> {
  const paths = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((path) => path !== SEAL)
    .sort();
  return Object.fromEntries(
    paths.map((path) => {
      const text = readFileSync(join(folder, path), 'utf8').replaceAll('\r\n', '\n');
      return [path, createHash('sha256').update(text).digest('hex')];
    }),
  );
}

export const isPublished = (folder: string): boolean => existsSync(join(folder, SEAL));

/** Whatever was changed in a published folder since; nothing for a draft. */
export function findingsOfSeal(folder: string): Finding[] {
  if (!isPublished(folder)) return [];
  const mend = 'put it back as it was; corrections belong into a new draft (gaugewalk rules draft)';
  const found = (file: string, message: string): Finding => ({ file, line: 1, message, mend });
  const seal = sealSchema.safeParse(parsed(readFileSync(join(folder, SEAL), 'utf8')));
  if (!seal.success) return [found(SEAL, 'the seal of this published version cannot be read')];
  const { files } = seal.data;
  const now = sumsOf(folder);
  return [
    ...Object.keys(files)
      .filter((file) => now[file] === undefined)
      .map((file) => found(file, 'is gone since this version was published')),
    ...Object.keys(now)
      .filter((file) => now[file] !== files[file])
      .map((file) =>
        found(
          file,
          files[file] === undefined
            ? 'came into the folder after this version was published'
            : 'was changed after this version was published',
        ),
      ),
  ];
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
