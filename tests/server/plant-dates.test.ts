import ICAL from 'ical.js';
import { beforeAll, expect, it } from 'vitest';
import type { Judge } from '../../src/server/judge.ts';
import { seeded } from '../seeded.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { usual } from '../upkeep/trials.ts';
import { virtualRecord } from '../upkeep/virtual.ts';
import { standInJudge } from './stand-in-judge.ts';
import { answerTo, type Sent, type TestServer, testServer } from './test-server.ts';

/** A record with a loading filter, on a plant whose name and ids need escaping and folding. */
const { record, today } = virtualRecord(seeded(5), usual);
const NAME =
  'Casa «El Ñandú», pabellón; depósito\\norte y una línea que hay que doblar varias veces';
const plant = { ...record.plant, name: NAME };

onBothStores('the dates of a plant as a calendar', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  let readId = '';
  const clock = () => new Date(today * 86_400_000);
  beforeAll(async () => {
    const judge: Judge = {
      ...standInJudge,
      validate: () => {},
      computeView: (input) => standInJudge.computeView({ ...input, answers: [] }),
    };
    server = await testServer(await open(), { clock, judge });
    const opened = await server.send('POST', '/api/plants', { plant });
    readId = opened.body.readId;
    const { body } = await server.send('POST', '/api/cases', { plantId: opened.body.id });
    const told = [
      ...record.history.map((entry) => {
        const { at, ...reading } = entry as { at: string };
        return answerTo('readings', reading, { at: `${at}T12:00:00Z` });
      }),
      answerTo('lamp-hours', 4000, { at: '2026-04-01T12:00:00Z' }),
    ];
    for (const answer of told) {
      expect((await server.send('POST', `/api/cases/${body.id}/answers`, answer)).status).toBe(200);
    }
  });
  const feed = (language: string): Promise<Sent> =>
    server.send('GET', `/api/plants/${readId}/dates.ics?language=${language}`);
  const eventsOf = (text: string) =>
    new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((one) => ({
      uid: String(one.getFirstPropertyValue('uid')),
      stamp: String(one.getFirstPropertyValue('dtstamp')),
      event: new ICAL.Event(one),
    }));

  it('is read back whole by an independent parser, in English and Spanish', async () => {
    for (const [language, lamp] of [
      ['en', /lamp reaches 9000 h/],
      ['es', /lámpara/],
    ] as const) {
      const { status, headers, body } = await feed(language);
      expect(status).toBe(200);
      expect(headers.get('content-type')).toBe('text/calendar; charset=utf-8');
      const calendar = new ICAL.Component(ICAL.parse(body));
      expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
      const events = eventsOf(body);
      expect(events.some(({ uid }) => uid.includes('sed-1.resistance'))).toBe(true);
      expect(events.some(({ event }) => lamp.test(event.description))).toBe(true);
      for (const { event, stamp } of events) {
        expect(event.startDate.isDate).toBe(true);
        expect(event.duration.toSeconds()).toBe(86_400);
        expect(stamp).toBe(`${clock().toISOString().slice(0, 10)}T00:00:00Z`);
      }
    }
  });

  it('keeps to RFC 5545, 3.1: CRLF, 75 octets a line at most, no character cut in two', async () => {
    const { body } = await feed('es');
    expect(body.endsWith('\r\n')).toBe(true);
    expect(body.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const lines = String(body).split('\r\n');
    for (const line of lines) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    expect(lines.some((line) => line.startsWith(' '))).toBe(true);
    expect(body).not.toContain('\uFFFD');
    // 3.3.11: a comma, a semicolon and a backslash of a text are escaped
    expect(body.replaceAll('\r\n ', '')).toContain('«El Ñandú»\\, pabellón\\; depósito\\\\norte');
  });

  it('keeps every UID in the other language and on another day, and shows nothing of the links', async () => {
    const [en, es] = [await feed('en'), await feed('es')];
    const uids = (text: string) => eventsOf(text).map(({ uid }) => uid);
    expect(uids(es.body)).toEqual(uids(en.body));
    expect(new Set(uids(en.body)).size).toBe(uids(en.body).length);
    expect((await feed('en')).body).toBe(en.body);
    expect(en.body).not.toContain(readId);
  });

  it('is refused in a language without words, and gone with the plant', async () => {
    expect((await feed('xx')).body).toMatchObject({ status: 422, where: 'language' });
    const { body } = await server.send('POST', '/api/plants', { plant });
    await server.send('DELETE', `/api/plants/${body.id}`);
    const gone = await server.send('GET', `/api/plants/${body.readId}/dates.ics`);
    expect(gone.status).toBe(410);
  });
});
