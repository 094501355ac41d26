/** What stands between the strokes of an address, decoded; what cannot be ("100%") as it is written. */
export const pathParts = (path: string): string[] => path.split('/').filter(Boolean).map(decoded);

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
