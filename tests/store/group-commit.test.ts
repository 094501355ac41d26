import { describe, expect, it } from 'vitest';
import { groupCommits } from '../../src/store/group-commit.ts';
import { openStore, type Trx } from '../../src/store/store.ts';

const put = (name: string) => async (trx: Trx) => {
  await trx.insertInto('settings').values({ name, value: name }).execute();
  return name;
};

describe('writes that share a commit', () => {
  it('keep those that went well when one of them fails', async () => {
    const store = await openStore({ dataDir: ':memory:' });
    const write = groupCommits(store.db);
    const fails = async (trx: Trx): Promise<string> => {
      await put('half')(trx);
      throw new Error('changed its mind');
    };
    const outcomes = await Promise.allSettled([
      write(put('a')),
      write(fails),
      write(put('a')),
      write(put('b')),
    ]);
    expect(outcomes.map(({ status }) => status)).toEqual([
      'fulfilled',
      'rejected',
      'rejected',
      'fulfilled',
    ]);
    const rows = await store.db.selectFrom('settings').select('name').orderBy('name').execute();
    expect(rows.map(({ name }) => name)).toEqual(['a', 'b']);
    await store.close();
  });

  it('take one transaction for all who came while the last was on its way', async () => {
    const store = await openStore({ dataDir: ':memory:' });
    let transactions = 0;
    const counted = new Proxy(store.db, {
      get(db, name) {
        if (name === 'transaction') transactions += 1;
        const member: unknown = Reflect.get(db, name, db);
        return typeof member === 'function' ? member.bind(db) : member;
      },
    });
    const write = groupCommits(counted);
    await Promise.all(Array.from({ length: 50 }, (_, i) => write(put(`row ${i}`))));
    expect(transactions).toBeLessThanOrEqual(2);
    expect(await store.db.selectFrom('settings').selectAll().execute()).toHaveLength(50);
    await store.close();
  });

  it('are all refused when the transaction cannot be had', async () => {
    const store = await openStore({ dataDir: ':memory:' });
    await store.close();
    const outcomes = await Promise.allSettled([store.write(put('a')), store.write(put('b'))]);
    expect(outcomes.map(({ status }) => status)).toEqual(['rejected', 'rejected']);
  });
});
