import { describe, expect, it } from 'vitest';
import { dangerQuestion } from '../../shared/interview/danger.ts';
import { type Field, optionsOf } from '../../shared/interview/form.ts';
import { fitOf, fits, match, plain } from '../../shared/interview/match.ts';
import { isOpen, openPhrasesOf } from '../../shared/interview/open-phrase.ts';
import { type Reply, readReply, typingOf } from '../../shared/interview/reply.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words: spoken } = latestRuleSet();
const words = spoken.en!;
const danger = dangerQuestion(rules);
const dangers = optionsOf(danger, rules.questions[danger]!.answers, words);
const typing = typingOf(words, dangers);
const options = (question: string) =>
  optionsOf(question, rules.questions[question]!.answers, words);
const fieldOf = (question: string): Field => ({
  ...{ key: 'value', text: null, options: options(question) },
  kind: rules.questions[question]!.kind === 'list' ? 'many' : 'one',
});
const read = (question: string, line: string): Reply =>
  readReply(line, fieldOf(question), typing, siUnits);
const idsOf = (reply: Reply) =>
  reply.kind === 'near' ? reply.options.map(({ id }) => id).sort() : reply.kind;

/** A line for each word that will do for each part of an open phrase. */
function linesOf(said: string): string[] {
  const { phrases, wordings } = openPhrasesOf([said], words.synonyms, plain);
  const all = [...wordings].flatMap(([first, rest]) =>
    rest.map(({ part, rest: more }) => ({ part, text: [first, ...more].join(' ') })),
  );
  const { wanted, unwanted } = phrases[0]!;
  return wanted.flatMap((part) =>
    all
      .filter((one) => one.part === part && !unwanted.includes(one.text))
      .map(({ text }) =>
        wanted
          .map((other) => (other === part ? text : all.find((one) => one.part === other)!.text))
          .join(' and '),
      ),
  );
}

describe('typed words', () => {
  it.each([
    ['smell', '1', 'none'],
    ['smell', 'Rotten eggs', 'rotten-egg'],
    ['smell', 'ROTTEN-EGG', 'rotten-egg'],
    ['smell', 'it smells musty', 'earthy'],
    ['smell', 'like a swimming pool', 'chlorine'],
    ['smell', 'nothing', 'none'],
    // though "weak" by itself speaks of what is wrong
    ['pump-open', 'it runs but it is weak', 'weak-steady'],
    // not silent, though that is said of a silent one too
    ['pump-open', 'it buzzes but does not start', 'hums'],
    ['onset', 'i changed the filter last week', 'after-work'],
    ['look', 'brown', 'brown'],
    ['look', 'Mílky', 'cloudy-clears'],
    ['onset', 'it got worse bit by bit', 'gradual'],
    ['onset', 'since the service', 'after-work'],
    ['scope', 'all over', 'whole-house'],
    ['pump-open', 'it clicks on and off every few seconds', 'cycles-fast'],
    ['pump-open', 'humming', 'hums'],
    ['pump-closed', 'it keeps running', 'never-stops'],
    ['taste', 'metalic', 'metallic'],
  ])('for "%s", "%s" is clear: %s', (question, line, id) => {
    const reply = read(question, line);
    if (reply.kind === 'near') expect(idsOf(reply)).toEqual([id]);
    else expect(reply).toEqual({ kind: 'filled', value: id });
  });

  it.each([
    ['complaint', 'weak water and it smells', ['weak', 'smell']],
    ['complaint', '1, 7', [1, 7]],
    ['complaint', '7 1', [1, 7]],
    ['complaint', 'dry taps; brown', ['no-water', 'look']],
    ['household', '', []],
    ['household', 'none', []],
    ['household', 'a baby and home dialysis', ['infant', 'dialysis']],
    ['recent-work', 'new filters', ['filters']],
    ['complaint', 'on and off, and it smells', ['pulsing', 'smell']],
    ['complaint', 'nothing, just a check', ['routine']],
    // "low" alone would be the tank's
    ['complaint', 'the pressure is really low upstairs', ['weak']],
    ['household', 'two kids and my mother of 80', ['infant', 'elderly']],
  ] as const)('for "%s", "%s" ticks %j', (question, line, ids) => {
    const all = options(question).map(({ id }) => id);
    const expected = ids.map((one) => (typeof one === 'number' ? all[one - 1] : one));
    const inOrder = all.filter((id) => expected.includes(id));
    expect(read(question, line)).toMatchObject({ kind: 'filled', value: inOrder });
  });

  it.each([
    ['household', 'weak water', 'complaint'],
    ['complaint', 'it came bit by bit', 'onset'],
    ['pump-open', 'it smells of rotten eggs', 'smell'],
    ['smell', 'just the shower', 'scope'],
  ])('for "%s", "%s" is said to belong to "%s"', (question, line, other) => {
    expect(read(question, line)).toEqual({
      kind: 'elsewhere',
      question: words.questions[other]!.short,
    });
  });

  it.each([
    ['smell', 'rotten eggs and the gate squeaks', ['rotten-egg'], [], 'the gate squeaks'],
    ['complaint', 'weak water, the gate squeaks', null, ['weak'], 'the gate squeaks'],
    [
      ...(['household', 'the water is weak and our baby drinks it', null] as const),
      ...([['infant'], 'the water is weak'] as const),
    ],
  ] as const)('for "%s", "%s" says what was not understood', (question, line, ids, found, lost) => {
    const reply = read(question, line);
    expect(reply).toMatchObject({ kind: 'near', found, lost });
    if (ids) expect(idsOf(reply)).toEqual(ids);
  });

  it.each(['', 'none'])('"%s" is asked back where one of the answers says nothing', (line) => {
    expect(idsOf(read('complaint', line))).toEqual(['routine']);
    expect(read(danger, line)).toEqual({ kind: 'filled', value: [] });
    const besides = { ...fieldOf('complaint'), mayBeNone: true } as Field;
    expect(readReply(line, besides, typing, siUnits)).toEqual({ kind: 'filled', value: [] });
  });

  it('leaves the answer open where all that fits is asked for and one thing was said', () => {
    expect(read('complaint', 'it smells')).toMatchObject({ value: ['smell'], isOpen: true });
    expect(read('complaint', '2')).not.toHaveProperty('isOpen');
    expect(read(danger, 'smoke')).not.toHaveProperty('isOpen');
  });

  it.each([
    ['pump-open', 'starts and stops', ['cycles', 'cycles-fast', 'cycles-slow']],
    ['pump-open', 'it runs all the time', ['steady', 'weak-steady']],
    ['look', 'cloudy', ['cloudy-clears', 'cloudy-stays']],
  ])('for "%s", "%s" is asked back among %j', (question, line, ids) => {
    expect(idsOf(read(question, line))).toEqual(ids);
  });

  it.each([
    ['smell', 'purple'],
    ['smell', '77'],
    ['complaint', '77'],
    ['pump-open', 'not humming'],
    ['smell', 'the of is'],
    ['complaint', '!!'],
  ])('for "%s", "%s" is not understood', (question, line) => {
    expect(read(question, line).kind).toBe('unclear');
  });

  it('keeps what was already clear when one of several is asked back', () => {
    const reply = read('complaint', 'dripping, water');
    if (reply.kind === 'near') expect(reply.found).toEqual(['leak']);
    else expect(reply.kind).toBe('unclear');
  });

  it.each([
    ['?', 'why'],
    ['why do you ask', 'why'],
    ['<', 'back'],
    ['u', 'unknown'],
    ["I don't know", 'unknown'],
    ['not sure', 'unknown'],
    ['s', 'save'],
    ['c', 'change'],
    ['r', 'result'],
    ['h', 'help'],
    ['l', 'how'],
    ['k', 'keep'],
  ])('"%s" is a command at every question: %s', (line, kind) => {
    for (const question of ['smell', 'complaint', danger, 'tank-level']) {
      expect(read(question, line).kind).toBe(kind);
    }
  });

  it('takes a danger sign at any question, at once when it is named by itself', () => {
    for (const question of ['look', 'complaint', 'onset', 'pump-open']) {
      expect(read(question, 'burnt smell')).toMatchObject({ kind: 'danger', sure: true });
      expect(read(question, 'wet socket')).toMatchObject({ kind: 'danger', sure: true });
    }
  });

  it.each([
    ['onset', 'since I felt a tingle in the kitchen', 'shock', 'unclear'],
    ['complaint', 'burning smell', 'burning', 'filled'],
    ['complaint', 'a burnt smell near the pump', 'burning', 'filled'],
    ['smell', 'petrol', 'fuel-smell', 'filled'],
    ['smell', 'it smells of petrol', 'fuel-smell', 'filled'],
  ])('for "%s", "%s" is asked back as the danger sign %s', (question, line, id, otherwise) => {
    const reply = read(question, line);
    expect(reply).toMatchObject({ kind: 'danger', sure: false, signs: [{ id }] });
    expect(reply.kind === 'danger' && reply.otherwise.kind).toBe(otherwise);
  });

  it('takes no answer chosen from a list for a danger sign', () => {
    const questions = Object.entries(rules.questions).filter(
      ([id, { kind }]) => id !== danger && (kind === 'choice' || kind === 'list'),
    );
    for (const [question, { answers }] of questions) {
      for (const id of answers) expect([id, read(question, id).kind]).toEqual([id, 'filled']);
    }
  });

  it('finds every label and every other way of saying it for its own answer', () => {
    const lost: string[] = [];
    for (const [question, { kind, answers }] of Object.entries(rules.questions)) {
      if (kind !== 'choice' && kind !== 'list') continue;
      const all = optionsOf(question, answers, words);
      for (const option of all) {
        for (const said of [option.id, option.label, ...option.alsoSaid]) {
          if (isOpen(said)) {
            for (const line of linesOf(said)) {
              if (fitOf(line, option, typing) < fits.hints) lost.push(`${said}: ${line}`);
            }
            continue;
          }
          const found = match(said, all, typing).options.map(({ id }) => id);
          if (!found.includes(option.id)) lost.push(`${question}: ${said}`);
        }
      }
    }
    expect(lost).toEqual([]);
  });
});

describe('plain text', () => {
  it.each([
    ['  Öl & Wasser! ', 'ol wasser'],
    ["don't", 'dont'],
    ['E. coli', 'e coli'],
    ['—', ''],
  ])('%j is read as %j', (text, read) => {
    expect(plain(text)).toBe(read);
  });
});
