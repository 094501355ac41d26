/** Runs one command line. Resolves to the exit code: 0 with a result, 2 when the input cannot be used. */
export async function main(_args: readonly string[]): Promise<number> {
  return 0;
}
