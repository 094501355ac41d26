import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { readConfig } from '../../src/server/config.ts';

describe('the configuration', () => {
  it('needs nothing: one laptop, loopback, SQLite in ./data', () => {
    expect(readConfig({})).toMatchObject({
      port: 8080,
      host: '127.0.0.1',
      dataDir: 'data',
      databaseUrl: undefined,
      openPlainHttp: false,
    });
  });

  it('takes an empty variable as left out', () => {
    expect(readConfig({ PORT: '', DATABASE_URL: '' })).toMatchObject({
      port: 8080,
      databaseUrl: undefined,
    });
  });

  it.each<[string, Record<string, string>, string]>([
    ['PORT', { PORT: 'eighty' }, 'is a number'],
    ['PORT', { PORT: '70000' }, 'at most 65535'],
    ['DATABASE_URL', { DATABASE_URL: 'mysql://somewhere/db' }, 'begins with postgres://'],
    ['PUBLIC_URL', { PUBLIC_URL: 'water.example.org' }, 'https://'],
    ['PUBLIC_URL', { PUBLIC_URL: 'https://example.org/water' }, 'no path'],
    ['TRUST_PROXY', { TRUST_PROXY: 'yes' }, '0 or 1'],
    ['LOG_LEVEL', { LOG_LEVEL: 'loud' }, 'debug'],
    ['CASE_LIMIT', { CASE_LIMIT: '0' }, 'at least 1'],
    ['WEBHOOK_SECRET', { WEBHOOK_URL: 'https://calls.example/hook' }, 'is missing'],
    ['WEBHOOK_URL', { WEBHOOK_SECRET: `whsec_${'A'.repeat(44)}` }, 'is missing'],
    [
      'WEBHOOK_SECRET',
      { WEBHOOK_URL: 'https://calls.example/hook', WEBHOOK_SECRET: 'hunter2' },
      'openssl rand',
    ],
  ])('refuses %s from %j', (name, environment, says) => {
    try {
      readConfig(environment);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).where).toBe(name);
      expect((error as InputError).message).toContain(says);
      expect((error as InputError).message).not.toContain('hunter2');
    }
  });

  it.each([
    [{ HOST: '0.0.0.0' }, true],
    [{ HOST: '0.0.0.0', PUBLIC_URL: 'http://water.example' }, true],
    [{ HOST: '0.0.0.0', PUBLIC_URL: 'https://water.example' }, false],
    [{ HOST: '::1' }, false],
  ])('knows whether %j can be overheard: %s', (environment, open) => {
    expect(readConfig(environment).openPlainHttp).toBe(open);
  });
});
