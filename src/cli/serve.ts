import type { CAC } from 'cac';
import type { Io, Say } from './io.ts';

/**
 * Adds the server's commands to the command line: serve, owner, export, import, withdraw. What they need (database,
 * sign-in, HTTP) is loaded when one of them runs, so that the other commands start at once.
 */
export function registerServe(
  cli: CAC,
  io: Io,
  say: Say,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): void {
  cli.command('serve', say('help-serve')).action(async () => {
    const { runServe } = await import('./run-serve.ts');
    return runServe(io, say, environment);
  });
  cli
    .command('owner <email>', say('help-owner'))
    .option('--name <name>', say('help-owner-name'))
    .action(async (email: string, options: { name?: string }) => {
      const { runOwner } = await import('./owner.ts');
      return runOwner(io, say, email, options, environment);
    });
  cli.command('export <file>', say('help-export')).action(async (file: string) => {
    const { runExport } = await import('./transfer.ts');
    return runExport(io, say, file, environment);
  });
  cli.command('import <file>', say('help-import')).action(async (file: string) => {
    const { runImport } = await import('./transfer.ts');
    return runImport(io, say, file, environment);
  });
  cli
    .command('withdraw <link>', say('help-withdraw'))
    .option('--erase', say('help-withdraw-erase'))
    .action(async (link: string, options: { erase?: boolean }) => {
      const { runWithdraw } = await import('./withdraw.ts');
      return runWithdraw(io, say, link, options, environment);
    });
}
