import { describe, expect, it } from 'vitest';
import { dangerSigns } from '../../shared/interview/danger.ts';
import { formOf } from '../../shared/interview/form.ts';
import { readReply, typingOf } from '../../shared/interview/reply.ts';
import { untilDescribed } from '../../shared/plant/ready-made.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

/** Lines as a person types them in a hurry, with wet hands, at whatever question stands (made up for this). */
const { ruleSet, words } = latestRuleSet();

function said(question: string, line: string, language: 'en' | 'es' = 'en') {
  const spoken = words[language];
  if (!spoken) throw new Error(language);
  const [field] = formOf({ question }, null, untilDescribed, ruleSet, spoken, (key) => key).fields;
  if (!field) throw new Error(question);
  const typing = typingOf(spoken, dangerSigns(ruleSet, spoken));
  return readReply(line, field, typing, { pressure: 'bar', volume: 'L', language });
}
const takenOf = (...args: Parameters<typeof said>) => {
  const reply = said(...args);
  return reply.kind === 'filled' ? reply.value : reply.kind === 'near' ? reply.found : reply.kind;
};

describe('what is wrong, told in a hurry', () => {
  it.each([
    ['pump clicking on and off all night', ['pulsing', 'pump-restless']],
    ['the pump comes on by itself every few minutes', ['pump-restless']],
    ['the pump kicks in at night even when nobody uses water', ['pump-restless']],
    ['water hammer', ['noise']],
    ['something bangs in the wall when i shut a tap', ['noise']],
    ['blue stains in the bath', ['look']],
    ['greenish marks in the sink', ['look']],
    ['tap water looks like milk', ['look']],
    ['the light on the uv is orange', ['alarm']],
    ['the lamp thing beeps', ['alarm']],
    ['smelly brown water', ['smell', 'look']],
    // what the water is like is a complaint too, whatever question asks for it afterwards
    ['it tastes metallic', ['taste']],
    ['salty water', ['taste']],
    ['it smells', ['smell']],
    ['it smells of rotten eggs', ['smell']],
    ['bits in the water', ['look']],
    ['orange water from the bath tap', ['look']],
    ['white scale on the taps', ['look']],
    ['soap does not lather', ['look']],
    ['toilet takes ages to fill', ['weak']],
    ["the pump won't start", ['no-water']],
    ['the pump runs all the time', ['pump-restless']],
    ['the tap spits air', ['pulsing']],
    ['the water smells fine but is weak', ['weak']],
    ['it tastes fine but the shower is weak', ['weak']],
    ['no water pressure upstairs', ['weak']],
    ['no water at all since the power cut', ['no-water']],
    ['the power was off last night and since then nothing comes', ['no-water']],
  ])('%s', (line, expected) => {
    expect(takenOf('complaint', line)).toEqual(expected);
  });

  it.each([
    ['la bomba arranca sola toda la noche', ['pump-restless']],
    ['sabe a metal', ['taste']],
    ['el agua sale salada', ['taste']],
    ['huele a huevos', ['smell']],
    ['sale arena', ['look']],
    ['hay cal en los grifos', ['look']],
    ['la bomba no arranca', ['no-water']],
    ['escupe aire', ['pulsing']],
    ['manchas azules en la bañera', ['look']],
    ['la luz de la lámpara está naranja', ['alarm']],
  ])('%s', (line, expected) => {
    expect(takenOf('complaint', line, 'es')).toEqual(expected);
  });

  it.each([
    ['just a dribbel', 'weak'],
    ['it vibrtes and humss', 'noise'],
  ])('a slip of the finger is asked back: %s', (line, meant) => {
    const reply = said('complaint', line);
    expect(reply).toMatchObject({ kind: 'near', options: [{ id: meant }] });
  });
});

describe('one word among many may speak of something else, and is asked back', () => {
  it.each([
    ['pump-closed', 'The power was off last night and since then nothing comes', 'stays-off'],
    ['pump-open', 'since the power cut last night there is nothing in the kitchen', 'silent'],
  ])('%s: %s', (question, line, meant) => {
    expect(said(question, line)).toMatchObject({ kind: 'near', options: [{ id: meant }] });
  });

  it.each([
    ['pump-closed', 'it stays off', 'stays-off'],
    ['pump-closed', 'it stays quiet as long as all the taps are shut', 'stays-off'],
    ['pump-open', 'nothing', 'silent'],
    ['pump-open', 'it will not start however often i open the tap', 'silent'],
  ])('while this is taken: %s, %s', (question, line, taken) => {
    expect(said(question, line)).toMatchObject({ kind: 'filled', value: taken });
  });
});

it('of a page in one line only a danger is heard; the rest is asked for again', () => {
  const page = 'the water is weak '.repeat(400);
  expect(said('complaint', page)).toEqual({ kind: 'unclear' });
  expect(said('complaint', `${page} and i got a shock at the tap`)).toMatchObject({
    kind: 'danger',
    signs: [{ id: 'shock' }],
  });
});
