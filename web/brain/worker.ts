/// <reference lib="webworker" />
import { parseValue } from '../../shared/case/values.ts';
import { InputError } from '../../shared/common/errors.ts';
import { formOf } from '../../shared/interview/form.ts';
import { givenOf, stepKey } from '../../shared/interview/step.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import type { Units } from '../../shared/ruleset/figures.ts';
import type { UpkeepRules } from '../../shared/upkeep/rules.ts';
import { sayWith } from '../common/say.ts';
import { createAhead } from './ahead.ts';
import { cardOf, type Loaded, type Sheets } from './cards.ts';
import { look } from './look.ts';
import { plantPicture } from './plant-picture.ts';
import type { Brain, CaseNow, Checked } from './protocol.ts';
import { answerCalls, tellAhead } from './talk-to.ts';

/**
 * The worker that judges: it holds the rule tables and the words of one language, so that no finger waits for a
 * diagnosis. The page holds the answers and draws.
 */
const scope = self as unknown as DedicatedWorkerGlobalScope;
let loading: Promise<Loaded> | undefined;
const loaded = (): Promise<Loaded> => loading ?? Promise.reject(new Error('not started'));

const json = async <T>(path: string): Promise<T> => (await (await fetch(path)).json()) as T;

let sheets: { readonly language: string; readonly files: Promise<Sheets> } | undefined;
let language = '';

/** Job sheets and their words, fetched when work first begins. */
function loadedSheets(): Promise<Sheets> {
  if (sheets?.language !== language) {
    const files = Promise.all([
      json<Sheets['work']>('/rules/work.json'),
      json<Sheets['workWords']>(`/rules/work-${language}.json`),
    ]).then(([work, workWords]) => ({ work, workWords }));
    sheets = { language, files };
    files.catch(() => {
      sheets = undefined;
    });
  }
  return sheets.files;
}

async function load(language: string): Promise<Loaded> {
  const [rules, words] = await Promise.all([
    json<Loaded['rules']>('/rules/tables.json'),
    json<Loaded['words']>(`/rules/words-${language}.json`),
  ]);
  return { rules, words };
}

/** What dates need, fetched when they are first looked at. */
const upkeep = () =>
  Promise.all([loaded(), json<UpkeepRules>('/rules/upkeep.json'), import('./due.ts')]);

const ahead = createAhead(
  (now) => loaded().then((all) => checked(all, now.units, () => look(all, now))),
  (key, looked) => tellAhead(scope, key, looked),
);

async function checked<T>({ words }: Loaded, units: Units, make: () => T): Promise<Checked<T>> {
  try {
    return { ok: make() };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { faultText } = await import('../../shared/interview/fault-text.ts');
    const message = faultText(error, sayWith(words.phrases), units);
    return { wrong: { where: error.where, message } };
  }
}

const form = (all: Loaded, now: CaseNow, step: Parameters<Brain['fill']>[1]) => {
  const gauges = now.plant.line.flatMap((part) => (part.kind === 'gauge' ? [part.id] : []));
  return formOf(step, { gauges }, now.plant, all.rules, all.words, sayWith(all.words.phrases));
};

const brain: Brain = {
  async start(chosen) {
    ahead.forget();
    language = chosen;
    loading = load(chosen);
    await loading;
  },
  look: (now) => ahead.look(now),
  async card(now, step) {
    return (await brain.cards(now, [step]))[0] as Awaited<ReturnType<Brain['card']>>;
  },
  async cards(now, steps) {
    const all = await loaded();
    const given = givenOf(now.answers, all.rules);
    return steps.map((step) =>
      cardOf(all, now, now.plant, {
        step,
        given: given.find((one) => stepKey(one.step) === stepKey(step)),
      }),
    );
  },
  async fill(now, step, filled) {
    const all = await loaded();
    return checked(all, now.units, () => {
      const value = form(all, now, step).valueOf(filled);
      parseValue(step.question, value, all.rules, now.plant, now.day, step.question);
      return value;
    });
  },
  async think(now, step, filled) {
    const value = await brain.fill(now, step, filled);
    if ('ok' in value) ahead.think(now, step, value.ok);
  },
  async typed(now, step, key, line) {
    const all = await loaded();
    const field = form(all, now, step).fields.find((one) => one.key === key);
    const { readTyped } = await import('./typed.ts');
    return field ? readTyped(all, now, field, line) : { kind: 'unclear' };
  },
  async due(now, record) {
    const [all, tables, { dueOf }] = await upkeep();
    return checked(all, now.units, () => dueOf(all, tables, now, record));
  },
  async calendar(now, record) {
    const [all, tables, { calendarOf }] = await upkeep();
    return checked(all, now.units, () => calendarOf(all, tables, now, record));
  },
  async normal(plant) {
    const { normalReadings } = await import('./normal.ts');
    return normalReadings(plant);
  },
  async work(now, work) {
    const [all, sheets, { showWork }] = await Promise.all([
      loaded(),
      loadedSheets(),
      import('./work.ts'),
    ]);
    return checked(all, now.units, () => showWork({ ...all, ...sheets }, now, work));
  },
  async comesFirst(plant, audience, job, part) {
    const all = await loaded();
    // the plan stands without it: with neither network nor sheets the job itself says so when it is begun
    const known = await Promise.all([loadedSheets(), import('./work.ts')]).catch(() => null);
    if (!known) return null;
    const [sheets, { firstJob }] = known;
    return firstJob({ ...all, ...sheets }, plant, audience, job, part);
  },
  async causeNames() {
    const { words } = await loaded();
    return Object.fromEntries(Object.entries(words.causes).map(([id, { name }]) => [id, name]));
  },
  async checkPlant(plant, units) {
    return checked(await loaded(), units, () => plantPicture(parsePlant(plant)));
  },
};

answerCalls(brain, scope);
