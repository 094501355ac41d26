import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runOwner } from '../../src/cli/owner.ts';
import { runExport, runImport } from '../../src/cli/transfer.ts';
import { runWithdraw } from '../../src/cli/withdraw.ts';
import { openStore } from '../../src/store/store.ts';
import { fernhollow } from '../server/stand-in-judge.ts';
import { openedCase, type TestServer, testServer } from '../server/test-server.ts';

const PASSWORD = 'a long enough password';

describe('the server’s commands', () => {
  let folder: string;
  let environment: Record<string, string>;
  let said: string;
  let typed = '';
  const io = {
    readText: () => Promise.resolve(typed),
    out: (text: string) => {
      said += text;
    },
    err: () => undefined,
  };
  const say = (key: string, holes?: Readonly<Record<string, string | number>>): string =>
    `${key} ${JSON.stringify(holes ?? {})}`;

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'gaugewalk-commands-'));
    environment = { DATA_DIR: join(folder, 'data') };
    said = '';
    typed = `${PASSWORD}\n`;
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  const withServer = async <T>(
    work: (server: TestServer) => Promise<T>,
    dataDir = join(folder, 'data'),
  ): Promise<T> => {
    const store = await openStore({ dataDir });
    try {
      return await work(await testServer(store));
    } finally {
      await store.close();
    }
  };
  const signIn = (email: string, password: string): Promise<number> =>
    withServer(
      async (server) =>
        (await server.send('POST', '/api/desk/sign-in', { email, password })).status,
    );
  const owner = (email: string): Promise<void> => runOwner(io, say, email, {}, environment, false);

  it('owner makes the first owner, who can then sign in', async () => {
    await owner('first@example.org');
    expect(said).toContain('owner-made');
    expect(said).not.toContain(PASSWORD);
    expect(await signIn('first@example.org', PASSWORD)).toBe(200);
  });

  it('owner gives one who is locked out a new password', async () => {
    await owner('first@example.org');
    typed = 'quite another password';
    await owner('First@example.org');
    expect(said).toContain('owner-changed');
    expect(await signIn('first@example.org', PASSWORD)).toBe(401);
    expect(await signIn('first@example.org', 'quite another password')).toBe(200);
  });

  it.each([
    ['no-address', PASSWORD, 'no e-mail'],
    ['first@example.org', 'short', '12 to 128'],
    ['first@example.org', '', '12 to 128'],
  ])('owner refuses %s with the password "%s"', async (email, password, says) => {
    typed = password;
    await expect(owner(email)).rejects.toThrow(says);
  });

  it('export and import move everything to another place', async () => {
    const { id } = await withServer((server) => openedCase(server, fernhollow));
    const [file, second] = [join(folder, 'all.jsonl'), join(folder, 'again.jsonl')];
    await runExport(io, say, file, environment);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    const other = { DATA_DIR: join(folder, 'other') };
    await runImport(io, say, file, other);
    await runExport(io, say, second, other);
    expect(readFileSync(second)).toEqual(readFileSync(file));
    const read = await withServer(
      (server) => server.send('GET', `/api/cases/${id}`),
      other.DATA_DIR,
    );
    expect(read.status).toBe(200);
  });

  it('export writes over nothing, import names a file it cannot read and a line it cannot use', async () => {
    const file = join(folder, 'there');
    writeFileSync(file, '{"gaugewalk":"export","version":1}\nnot json\n');
    await expect(runExport(io, say, file, environment)).rejects.toThrow('is there already');
    await expect(
      runExport(io, say, join(folder, 'no', 'such', 'folder'), environment),
    ).rejects.toThrow('ENOENT');
    await expect(runImport(io, say, join(folder, 'missing'), environment)).rejects.toThrow(
      'ENOENT',
    );
    await expect(runImport(io, say, file, environment)).rejects.toMatchObject({
      where: `${file}:2`,
    });
  });

  it('withdraw takes a link or its address, and erases on request', async () => {
    const first = await withServer((server) => openedCase(server, fernhollow));
    const second = await withServer((server) => openedCase(server, fernhollow));
    await runWithdraw(io, say, `https://water.example/c/${first.readId}`, {}, environment);
    await runWithdraw(io, say, second.id, { erase: true }, environment);
    await expect(runWithdraw(io, say, 'nonsense', {}, environment)).rejects.toThrow(
      'nothing under this link',
    );
    await withServer(async (server) => {
      for (const { id, readId } of [first, second]) {
        for (const link of [id, readId])
          expect((await server.send('GET', `/api/cases/${link}`)).status).toBe(410);
      }
      const left = await server.deps.store.db.selectFrom('cases').select('ref').execute();
      expect(left).toHaveLength(1);
    });
  });

  it('name the variable when the store cannot be opened', async () => {
    const nowhere = { DATABASE_URL: 'postgres://nobody@127.0.0.1:1/none' };
    await expect(runExport(io, say, join(folder, 'x'), nowhere)).rejects.toMatchObject({
      where: 'DATABASE_URL',
    });
    writeFileSync(join(folder, 'file'), '');
    const inFile = { DATA_DIR: join(folder, 'file', 'data') };
    await expect(runExport(io, say, join(folder, 'x'), inFile)).rejects.toMatchObject({
      where: 'DATA_DIR',
    });
  });
});
