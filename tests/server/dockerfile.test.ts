import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readConfig } from '../../src/server/config.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The instructions of the Dockerfile reference (https://docs.docker.com/reference/dockerfile/), from memory. */
const known = [
  ...[
    'FROM',
    'RUN',
    'CMD',
    'LABEL',
    'EXPOSE',
    'ENV',
    'ADD',
    'COPY',
    'ENTRYPOINT',
    'VOLUME',
    'USER',
    'WORKDIR',
  ],
  ...['ARG', 'ONBUILD', 'STOPSIGNAL', 'HEALTHCHECK', 'SHELL'],
];

/** Instructions in order, comments left out, continued lines joined. */
const instructions = readFileSync(`${root}/Dockerfile`, 'utf8')
  .replace(/^#.*\n/gm, '')
  .replace(/\\\n\s*/g, '')
  .split('\n')
  .filter((line) => line.trim() !== '')
  .map((line) => {
    const [, name = '', rest = ''] = /^(\S+)\s+(.*)$/.exec(line) ?? [];
    return { name, rest };
  });
const all = (name: string): string[] =>
  instructions.filter((one) => one.name === name).map(({ rest }) => rest);
const lastStage = instructions.slice(instructions.findLastIndex(({ name }) => name === 'FROM'));

describe('the Dockerfile', () => {
  it('holds only known instructions', () => {
    for (const { name } of instructions) expect(known).toContain(name);
  });

  it('names each base image by a full version that satisfies package.json', () => {
    expect(all('FROM')).toHaveLength(2);
    for (const from of all('FROM'))
      expect(from).toMatch(/^node:(20\.(19|[2-9]\d)|2[2-9]\.\d+)\.\d+-\w+/);
  });

  it('runs as somebody other than root, who may write the data', () => {
    const user = lastStage.findLast(({ name }) => name === 'USER')?.rest;
    expect(user).toBe('node');
    expect(all('RUN').join()).toContain(`chown ${user}:${user} /data`);
  });

  it('starts the server directly, so that it hears the signal to stop', () => {
    const command = JSON.parse(all('CMD').at(-1) ?? '') as string[];
    expect(command.at(-1)).toBe('serve');
    expect(existsSync(`${root}/${command[1]}`)).toBe(true);
    expect(all('STOPSIGNAL')).toEqual(['SIGTERM']);
  });

  it('copies what the program needs to run and nothing that is not there', () => {
    const copied = all('COPY').filter((rest) => rest.startsWith('--from=build'));
    const sources = copied.map((rest) => rest.split(' ')[1]?.replace('/app/', ''));
    expect(sources).toEqual(
      expect.arrayContaining(['package.json', 'bin', 'rules', 'dist', 'node_modules']),
    );
    const made = ['dist', 'node_modules'];
    for (const source of sources)
      expect(made.includes(source ?? '') || existsSync(`${root}/${source}`), source).toBe(true);
    expect(all('ADD')).toEqual([]);
  });

  it('sets an environment the server accepts, with no secret in it', () => {
    const pairs = all('ENV')
      .flatMap((rest) => rest.split(/\s+/))
      .map((pair) => pair.split('=') as [string, string]);
    const config = readConfig(Object.fromEntries(pairs));
    expect(config).toMatchObject({
      host: '0.0.0.0',
      port: Number(all('EXPOSE')[0]),
      dataDir: all('VOLUME')[0],
    });
    for (const [name] of pairs) expect(name).not.toMatch(/SECRET|PASSWORD|KEY|URL/);
  });

  it('asks for the health the server tells', () => {
    expect(all('HEALTHCHECK')[0]).toContain('/health');
  });
});
