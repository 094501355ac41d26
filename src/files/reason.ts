const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'a part of its path is a file, not a folder',
  ENAMETOOLONG: 'its name is too long',
  EACCES: 'reading or writing it is not allowed',
  EPERM: 'reading or writing it is not allowed',
  ENOSPC: 'the disk is full',
  EFBIG: 'the system lets no file grow this large',
  EROFS: 'the disk cannot be written to',
};

/** Why the system would not read or write, for people. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return reasons[code] ?? (code || 'the system gave no reason');
}
