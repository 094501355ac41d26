import { describe, expect, it } from 'vitest';
import { dangerQuestion, dangerSigns } from '../../shared/interview/danger.ts';
import { type Field, optionsOf } from '../../shared/interview/form.ts';
import { readReply, typingOf } from '../../shared/interview/reply.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { denied, everyday, first, fresh, notDenied, second } from './danger-sentences.ts';

type Language = 'en' | 'es';

/** Sentences as people say them, none of them in the words of the rule set. Invented. */
const heard: Readonly<Record<Language, Readonly<Record<string, readonly string[]>>>> = {
  en: {
    burning: [
      'oh hang on there is a funny burnt plastic smell now near the pump',
      'the pump smells hot',
      'the pump smells of burnt rubber',
      'burnt plastic smell',
      'smells like burnt wires',
      'no water, I can smell something electrical',
      'no water, and the pump smells hot',
      'no water and fumes in the pump house',
      'the plug on the pump looks melted',
      'it smokes a little when it starts',
      'I hear crackling at the switch',
      'no, smoke coming out of the motor',
      'something is smouldering',
      'it went bang with a flash',
    ],
    'wet-electrics': [
      'the cable is wet',
      'water came on the fuse box',
      'it is dripping on the electric panel',
      'the wiring looks wet',
      'water got into the socket by the pump',
      'the fuse board is all wet',
      'there is damp inside the pressure switch',
      'the rain got into the wiring',
    ],
    illness: [
      'the water is brown and my kids have been sick',
      'my wife threw everything up last night',
      'the whole family is sick since monday',
      'the children both have tummy upsets',
      'we have all been sick',
      'the baby has had a tummy ache since drinking it',
    ],
    flooded: ['the shed flooded last night', 'the pump pit is full of water and rising'],
    'uv-exposed': ['the quartz tube shattered'],
    'chemical-exposure': ['bleach splashed in my eye'],
    'vessel-damaged': ['the blue tank has swollen'],
    scalding: ['my son burned his hand in the shower'],
    'sewage-smell': ['water smells like a toilet'],
    'fuel-smell': ['the water smells a bit of fuel', 'smells like someone spilled paint'],
    shock: ['my son got a shock when he touched the tap', 'the pipe gave me a shock'],
  },
  es: {
    burning: [
      'la bomba huele muy caliente',
      'huele a algo eléctrico',
      'se derritió el cable',
      'huele como a quemado cerca',
    ],
    'wet-electrics': [
      'el cable está todo mojado',
      'cayó agua en los fusibles',
      'gotea sobre el enchufe',
    ],
    illness: [
      'mis hijos están muy enfermos',
      'ayer vomitó mi marido',
      'tengo dolor en el estómago',
    ],
    flooded: ['se inundó todo'],
    'fuel-smell': ['el agua huele un poco a gasolina'],
    shock: ['me dio una descarga al tocar el grifo'],
  },
};

/** Said every day, and no danger. */
const harmless: Readonly<Record<Language, readonly string[]>> = {
  en: [
    'the water smells of rotten eggs',
    'hot water smells',
    'no smoke',
    'no burning smell',
    'nothing is wet',
    'we changed the old lamp last year',
    'the pump runs all the time',
    'weak upstairs, fine downstairs',
    'it got worse bit by bit',
    'the shower has got weak this week',
    'brown after rain',
    'the switch clicks on and off',
    'the filter was changed in spring',
    'like a swimming pool',
    'the pressure drops when two taps run',
    'the strainer looks clean to me',
    'the tank is full',
    'water hammer when I shut a tap',
    'the lamp on the unit is green',
    'it smells musty when it is hot outside',
  ],
  es: [
    'huele a huevos podridos',
    'sale poca agua arriba',
    'el agua sale marrón',
    'la bomba arranca y para',
    'hay humedad en la pared',
    'el tanque está lleno',
  ],
};

const { ruleSet: rules, words: all } = latestRuleSet();

describe.each(['en', 'es'] as const)('in %s', (language) => {
  const words = all[language]!;
  const typing = typingOf(words, dangerSigns(rules, words));
  const questions = Object.keys(rules.questions).filter((id) => {
    const { kind } = rules.questions[id]!;
    return id !== dangerQuestion(rules) && (kind === 'choice' || kind === 'list');
  });
  const signsIn = (question: string, line: string): readonly string[] => {
    const { kind, answers } = rules.questions[question]!;
    const options = optionsOf(question, answers, words);
    const field: Field = {
      key: 'value',
      text: null,
      options,
      kind: kind === 'list' ? 'many' : 'one',
    };
    const reply = readReply(line, field, typing, siUnits);
    return reply.kind === 'danger' ? reply.signs.map(({ id }) => id) : [];
  };
  // a question that has the sign among its own answers takes it as one
  const asks = (question: string, sign: string) =>
    rules.questions[question]!.answers.includes(sign);

  it.each(
    Object.entries(heard[language]).flatMap(([sign, lines]) =>
      lines.map((line) => [line, sign] as const),
    ),
  )('"%s" is heard as %s at every question', (line, sign) => {
    const deaf = questions.filter((id) => !asks(id, sign) && !signsIn(id, line).includes(sign));
    expect(deaf).toEqual([]);
  });

  const spoken = (sentences: Readonly<Record<string, readonly string[]>>) =>
    Object.entries(sentences).flatMap(([sign, lines]) =>
      lines.map((line) => [sign, line] as const),
    );
  // a line with several things to say, and one with one
  const missed = (sentences: Readonly<Record<string, readonly string[]>>) =>
    spoken(sentences).filter(([sign, line]) =>
      ['complaint', 'smell'].some((id) => !signsIn(id, line).includes(sign)),
    );

  it('hears what the words were mended on, and a danger beside a "no" that speaks of something else', () => {
    expect(missed(first[language])).toEqual([]);
    expect(missed(notDenied[language])).toEqual([]);
    // one names its sign less plainly than another that stops as well
    expect(missed(second[language]).length).toBeLessThanOrEqual(1);
  });

  it('hears at least half of the sentences that nothing was mended for', () => {
    expect(
      1 - missed(fresh[language]).length / spoken(fresh[language]).length,
    ).toBeGreaterThanOrEqual(0.5);
  });

  it.each([...harmless[language], ...denied[language], ...everyday[language]])(
    '"%s" is no danger sign',
    (line) => {
      expect(questions.filter((question) => signsIn(question, line).length > 0)).toEqual([]);
    },
  );
});
