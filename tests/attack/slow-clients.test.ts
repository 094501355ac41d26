import { connect, type Socket } from 'node:net';
import { pino } from 'pino';
import { expect, it } from 'vitest';
import { readConfig } from '../../src/server/config.ts';
import { startServer } from '../../src/server/start.ts';
import { standInJudge } from '../server/stand-in-judge.ts';

const SOCKETS = 300;

it(`${SOCKETS} clients that never end their request keep nobody waiting, and do not hold up the end`, async () => {
  const server = await startServer({
    config: readConfig({ PORT: '0', DATA_DIR: ':memory:', LOG_LEVEL: 'silent' }),
    judge: standInJudge,
    log: pino({ level: 'silent' }),
    version: '0-test',
  });
  const port = Number(new URL(server.url).port);
  const begun = [
    'GET /api/cas',
    'GET / HTTP/1.1\r\nHost: x\r\nX-Slow: ',
    'POST /api/cases HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 90000\r\n\r\n{"plant": ',
  ];
  const sockets = await Promise.all(
    Array.from(
      { length: SOCKETS },
      (_, i) =>
        new Promise<Socket>((resolve, reject) => {
          const socket = connect(port, '127.0.0.1', () => {
            socket.write(begun[i % begun.length] ?? '');
            resolve(socket);
          });
          socket.once('error', reject);
        }),
    ),
  );
  for (const socket of sockets) socket.on('error', () => undefined);
  const started = performance.now();
  const { status } = await fetch(`${server.url}/health`);
  expect(status).toBe(200);
  expect(performance.now() - started).toBeLessThan(3000);
  const stopping = performance.now();
  await server.stop();
  // those still busy after ten seconds are cut
  expect(performance.now() - stopping).toBeLessThan(13_000);
  for (const socket of sockets) socket.destroy();
}, 60_000);
