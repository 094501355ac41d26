import { describe, expect, it } from 'vitest';
import { dangerQuestion, dangerSigns } from '../../shared/interview/danger.ts';
import { type Field, optionsOf } from '../../shared/interview/form.ts';
import { type Reply, readReply, typingOf } from '../../shared/interview/reply.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { denied, everyday, first, fresh, notDenied, second } from './danger-sentences.ts';
import { texted, textedHarmless } from './danger-texted.ts';
import { told, toldDenied, toldHarmless } from './danger-told.ts';

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
    'I think it is a bit like old socks',
    'water comes out in spurts with air in it',
  ],
  es: [
    'huele a huevos podridos',
    'sale poca agua arriba',
    'el agua sale marrón',
    'la bomba arranca y para',
    'hay humedad en la pared',
    'huele como a calcetines',
    'no huele a quemado ni sale humo',
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
  const replyTo = (question: string, line: string): Reply => {
    const { kind, answers } = rules.questions[question]!;
    const options = optionsOf(question, answers, words);
    const field: Field = {
      key: 'value',
      text: null,
      options,
      kind: kind === 'list' ? 'many' : 'one',
    };
    return readReply(line, field, typing, siUnits);
  };
  const signsIn = (question: string, line: string): readonly string[] => {
    const reply = replyTo(question, line);
    return reply.kind === 'danger' ? reply.signs.map(({ id }) => id) : [];
  };
  /** Where the signs are asked for: those taken at once, and those asked back. */
  const whereAsked = (line: string): { taken: readonly string[]; asked: readonly string[] } => {
    const reply = replyTo(dangerQuestion(rules), line);
    return {
      taken: reply.kind === 'filled' ? (reply.value as readonly string[]) : [],
      asked: reply.kind === 'near' ? reply.options.map(({ id }) => id) : [],
    };
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

  it('hears every danger as it was told by somebody who had not seen the program', () => {
    expect(missed(told[language])).toEqual([]);
    const notTaken = spoken(told[language]).filter(([sign, line]) => {
      const { taken, asked } = whereAsked(line);
      return !taken.includes(sign) && !asked.includes(sign);
    });
    expect(notTaken).toEqual([]);
  });

  it.each(Object.values(toldDenied[language]).flat())('"%s" says that there is none', (line) => {
    expect(signsIn('complaint', line)).toEqual([]);
    expect(whereAsked(line)).toEqual({ taken: [], asked: [] });
  });

  it('asks back about at most one of what else was told', () => {
    const raised = toldHarmless[language].filter((line) => signsIn('complaint', line).length > 0);
    expect(raised.length).toBeLessThanOrEqual(1);
    expect(toldHarmless[language].filter((line) => whereAsked(line).taken.length > 0)).toEqual([]);
  });

  it('hears as many of the sentences that nothing was mended for as when it was measured', () => {
    const measured = { en: 29, es: 27 };
    const all = spoken(texted[language]);
    const taken = all.filter(([sign, line]) => whereAsked(line).taken.includes(sign));
    expect(all).toHaveLength(30);
    expect(all.length - missed(texted[language]).length).toBeGreaterThanOrEqual(measured[language]);
    expect(taken.length).toBeGreaterThanOrEqual(measured[language]);
    expect(
      textedHarmless[language].filter((line) => signsIn('complaint', line).length > 0),
    ).toEqual([]);
  });

  it('takes all that is said clearly, and asks back what may be meant', () => {
    const lines = {
      en: {
        both: 'smoke from the pump, and everybody is vomiting',
        slip: 'there is thick somke by the pupm',
        past: 'the cellar flooded last year',
        hint: 'the expansion tank is rusty',
      },
      es: {
        both: 'sale humo de la bomba, y los niños vomitan',
        slip: 'la caseta está indundada',
        past: 'el sótano se inundó el año pasado',
        hint: 'hay una fuga fuerte',
      },
    }[language];
    expect(whereAsked(lines.both)).toEqual({ taken: ['burning', 'illness'], asked: [] });
    expect(whereAsked(lines.past)).toEqual({ taken: [], asked: ['flooded'] });
    for (const line of [lines.slip, lines.hint]) {
      const { taken, asked } = whereAsked(line);
      expect([taken.length, asked.length]).toEqual([0, 1]);
    }
  });
});
