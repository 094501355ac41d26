import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { requirePackage } from '../system-package.ts';

/** A real PostgreSQL for a test file: its own cluster in a temporary folder, its own port on loopback. */
export interface TestPostgres {
  /** A new, empty database; its address. */
  newDatabase(): Promise<string>;
  /** Ends it at once, as a crash would; its data stay. */
  down(): Promise<void>;
  /** Starts it again where it was. */
  up(): Promise<void>;
  stop(): Promise<void>;
}

const MACHINE_WIDE = '/usr/lib/postgresql';

/** The folder of initdb and postgres, of whichever version is there. */
function findBinaries(): string | undefined {
  const versions = existsSync(MACHINE_WIDE)
    ? readdirSync(MACHINE_WIDE).sort((a, b) => Number(b) - Number(a))
    : [];
  const folders = [
    ...versions.map((version) => join(MACHINE_WIDE, version, 'bin')),
    ...(process.env.PATH ?? '').split(':'),
  ];
  return folders.find(
    (folder) => existsSync(join(folder, 'initdb')) && existsSync(join(folder, 'postgres')),
  );
}

/** Installs Debian's package when it may, else says what is missing: these tests are never skipped. */
export function requireBinaries(): string {
  return requirePackage('postgresql', findBinaries, 'The store is tested on a real PostgreSQL.');
}

export async function startPostgres(): Promise<TestPostgres> {
  const binaries = requireBinaries();
  const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-postgres-'));
  const asRoot = process.getuid?.() === 0;
  if (asRoot) {
    const [uid, gid] = idsOf('postgres');
    chownSync(folder, uid, gid);
  }
  // PostgreSQL refuses to run as root.
  const command = (name: string, args: string[]): [string, string[]] =>
    asRoot
      ? [
          'setpriv',
          ['--reuid=postgres', '--regid=postgres', '--clear-groups', join(binaries, name), ...args],
        ]
      : [join(binaries, name), args];

  const data = join(folder, 'data');
  const [initdb, initdbArgs] = command('initdb', [
    '--pgdata',
    data,
    '--auth=trust',
    '--username=test',
    '--encoding=UTF8',
    '--no-sync',
  ]);
  execFileSync(initdb, initdbArgs, { stdio: 'ignore', cwd: folder });
  const port = await freePort();
  const [postgres, postgresArgs] = command('postgres', [
    '-D',
    data,
    '-p',
    String(port),
    '-k',
    folder,
    '-h',
    '127.0.0.1',
  ]);
  const address = (name: string): string => `postgres://test@127.0.0.1:${port}/${name}`;
  let server: ChildProcess | undefined;
  const up = async (): Promise<void> => {
    server = spawn(postgres, postgresArgs, { stdio: 'ignore', cwd: folder });
    await untilReady(address('postgres'));
  };
  const down = async (): Promise<void> => {
    const ended = new Promise((resolve) => server?.once('exit', resolve));
    server?.kill('SIGQUIT'); // at once
    await ended;
  };
  await up();

  return {
    up,
    down,
    async newDatabase() {
      const name = `t${randomUUID().replaceAll('-', '')}`;
      await query(address('postgres'), `create database ${name}`);
      return address(name);
    },
    async stop() {
      await down();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function idsOf(user: string): [number, number] {
  const id = (flag: string): number =>
    Number(execFileSync('id', [flag, user], { encoding: 'utf8' }));
  return [id('-u'), id('-g')];
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() =>
        address && typeof address === 'object'
          ? resolve(address.port)
          : reject(new Error('no port')),
      );
    });
  });
}

async function query(url: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(sql);
  } finally {
    await client.end();
  }
}

async function untilReady(url: string): Promise<void> {
  for (let tries = 0; ; tries += 1) {
    try {
      return await query(url, 'select 1');
    } catch (error) {
      if (tries === 100) throw error;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}
