import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { type Part, parsePlant } from '../../shared/plant/schema.ts';

const house = { id: 'house', kind: 'house' };
const plant = (...line: object[]) => ({ name: 'test', line: [...line, house] });
const pump = (fields: object) => plant({ id: 'pump', kind: 'pump', ...fields });

describe('a plant file', () => {
  it('may leave out everything but name, line, ids, kinds and media', () => {
    const line = [
      { id: 'tank', kind: 'tank' },
      { id: 'suction', kind: 'suction' },
      { id: 'pump', kind: 'pump' },
      ...['vessel', 'valve', 'check-valve', 'pressure-reducer', 'relief-valve'].map((kind) => ({
        id: kind,
        kind,
      })),
      ...['dosing-pump', 'drain', 'mains', 'gauge', 'uv'].map((kind) => ({ id: kind, kind })),
      { id: 'stage', kind: 'filter', medium: 'carbon' },
      { id: 'round', kind: 'bypass', around: ['stage'] },
    ];
    expect(parsePlant(plant(...line)).line).toHaveLength(line.length + 1);
  });

  it('comes out as it went in', () => {
    expect(parsePlant(JSON.parse(JSON.stringify(fernhollow)))).toEqual(fernhollow);
  });

  it('is told several things that are wrong at once', () => {
    const line = [
      { id: 'tank', kind: 'tank', litres: 900 },
      { id: 'stage', kind: 'filter' },
    ];
    expect(() => parsePlant(plant(...line), 'plant')).toThrow(
      /"litres".*; also plant\.line\[1\]\.medium: /,
    );
  });

  it.each(['G1', 'a', 'A-9', '7'])('takes "%s" as an id', (id) => {
    expect(parsePlant(plant({ id, kind: 'gauge' })).line[0]?.id).toBe(id);
  });
});

/** What is wrong, the plant, the place named, and words that the message must hold. */
const refused: [string, unknown, string, RegExp][] = [
  ['no plant at all', 3, 'plant', /object/],
  ['no name', { line: [house] }, 'name', /missing/],
  ...['\u0000', '\n', '\u007f'].map((text): [string, unknown, string, RegExp] => [
    `a name with ${JSON.stringify(text)}`,
    { name: `Well${text}house`, line: [house] },
    'name',
    /control characters/,
  ]),
  ['no line', { name: 'x' }, 'line', /missing/],
  ['an empty line', { name: 'x', line: [] }, 'line', /at least 1/],
  ['no house', { name: 'x', line: [{ id: 'tank', kind: 'tank' }] }, 'line', /house is missing/],
  [
    'a part behind the house',
    { name: 'x', line: [house, { id: 'v', kind: 'valve' }] },
    'line[1]',
    /house is the last/,
  ],
  ['two houses', plant({ id: 'other', kind: 'house' }), 'line[1]', /second house/],
  [
    'an unknown field',
    plant({ id: 'tank', kind: 'tank', level: 2 }),
    'line[0].level',
    /unknown field "level": did you mean "levelM"\?/,
  ],
  [
    'an unknown field below',
    plant({ id: 'f', kind: 'filter', medium: 'carbon', clean: { flow: 1 } }),
    'line[0].clean.flow',
    /unknown field/,
  ],
  ['an unknown field on top', { ...plant(), altitude: 3 }, 'altitude', /unknown field/],
  [
    'a field of another part',
    plant({ id: 't', kind: 'tank', boreMm: 32 }),
    'line[0].boreMm',
    /unknown field "boreMm" here: leave it out/,
  ],
  [
    'a field misspelt below',
    plant({ id: 'f', kind: 'filter', medium: 'carbon', clean: { flowLpn: 1 } }),
    'line[0].clean.flowLpn',
    /did you mean "flowLpm"\?/,
  ],
  ['an unknown kind', plant({ id: 't', kind: 'well' }), 'line[0].kind', /use one of tank, suction/],
  ['a misspelt kind', plant({ id: 't', kind: 'tonk' }), 'line[0].kind', /did you mean "tank"\?/],
  [
    'a medium for a kind',
    plant({ id: 'c', kind: 'carbon' }),
    'line[0].kind',
    /write "kind": "filter", "medium": "carbon"/,
  ],
  [
    'an unknown control',
    pump({ control: { kind: 'magic' } }),
    'line[0].control.kind',
    /pressure-switch/,
  ],
  [
    'an unknown medium',
    plant({ id: 'f', kind: 'filter', medium: 'sand' }),
    'line[0].medium',
    /sediment, carbon/,
  ],
  ['no medium', plant({ id: 'f', kind: 'filter' }), 'line[0].medium', /sediment, carbon/],
  ['no id', plant({ kind: 'tank' }), 'line[0].id', /missing/],
  [
    'an id with a space',
    plant({ id: 'a b', kind: 'tank' }),
    'line[0].id',
    /letters, digits and hyphens/,
  ],
  [
    'an id with an underscore',
    plant({ id: 'a_b', kind: 'tank' }),
    'line[0].id',
    /letters, digits and hyphens/,
  ],
  [
    'an id twice',
    plant({ id: 'a', kind: 'tank' }, { id: 'a', kind: 'valve' }),
    'line[1].id',
    /already used at line\[0\]\.id/,
  ],
  [
    'a tap with a part’s id',
    {
      name: 'x',
      line: [
        { id: 'a', kind: 'tank' },
        { ...house, taps: [{ id: 'a' }] },
      ],
    },
    'line[1].taps[0].id',
    /already used/,
  ],
  [
    'NaN',
    plant({ id: 't', kind: 'tank', levelM: Number.NaN }),
    'line[0].levelM',
    /not NaN or infinite/,
  ],
  [
    'infinity',
    plant({ id: 't', kind: 'tank', volumeL: Number.POSITIVE_INFINITY }),
    'line[0].volumeL',
    /not NaN or infinite/,
  ],
  [
    'a negative level',
    plant({ id: 't', kind: 'tank', levelM: -1 }),
    'line[0].levelM',
    /at least 0/,
  ],
  [
    'a bore of nothing',
    plant({ id: 's', kind: 'suction', boreMm: 0 }),
    'line[0].boreMm',
    /^must be more than 0$/,
  ],
  [
    'a text for a number',
    plant({ id: 't', kind: 'tank', levelM: '2' }),
    'line[0].levelM',
    /a number/,
  ],
  [
    'a share over one',
    plant({ id: 'f', kind: 'filter', medium: 'carbon', clean: { linearShare: 1.2 } }),
    'line[0].clean.linearShare',
    /at most 1/,
  ],
  ['ice', { ...plant(), waterTempC: -1 }, 'waterTempC', /at least 0/],
  [
    'a day that is none',
    plant({ id: 'f', kind: 'filter', medium: 'carbon', fittedOn: '2026-02-30' }),
    'line[0].fittedOn',
    /calendar day/,
  ],
  [
    'cut-in at cut-out',
    pump({ control: { kind: 'pressure-switch', cutInBar: 3, cutOutBar: 3 } }),
    'line[0].control.cutInBar',
    /under cut-out 3 bar/,
  ],
  [
    'head rising with flow',
    pump({
      curve: [
        { flowLpm: 0, headM: 30 },
        { flowLpm: 20, headM: 31 },
      ],
    }),
    'line[0].curve[1].headM',
    /point 1 \(0 L\/min, 30 m\) to point 2 \(20 L\/min, 31 m\)/,
  ],
  [
    'flows out of order',
    pump({
      curve: [
        { flowLpm: 20, headM: 30 },
        { flowLpm: 20, headM: 20 },
      ],
    }),
    'line[0].curve[1].flowLpm',
    /small to large/,
  ],
  [
    'one point without flow',
    pump({ curve: [{ flowLpm: 0, headM: 30 }] }),
    'line[0].curve[0].flowLpm',
    /above zero/,
  ],
  ['an empty curve', pump({ curve: [] }), 'line[0].curve', /at least 1/],
  [
    'two pumps',
    plant({ id: 'p', kind: 'pump' }, { id: 'q', kind: 'pump' }),
    'line[1]',
    /second pump/,
  ],
  [
    'a tank behind a pump',
    plant({ id: 'p', kind: 'pump' }, { id: 't', kind: 'tank' }),
    'line[1]',
    /first part/,
  ],
  [
    'a suction behind the pump',
    plant({ id: 'p', kind: 'pump' }, { id: 's', kind: 'suction' }),
    'line[1]',
    /before the pump/,
  ],
  [
    'a bypass round nothing known',
    plant({ id: 'b', kind: 'bypass', around: ['x'] }),
    'line[0].around[0]',
    /no part "x"/,
  ],
  [
    'a bypass round the pump',
    plant({ id: 'p', kind: 'pump' }, { id: 'b', kind: 'bypass', around: ['p'] }),
    'line[1].around[0]',
    /cannot lead around "p"/,
  ],
  [
    'a bypass round a reducer between',
    plant(
      { id: 'v', kind: 'valve' },
      { id: 'r', kind: 'pressure-reducer' },
      { id: 'w', kind: 'valve' },
      { id: 'b', kind: 'bypass', around: ['v', 'w'] },
    ),
    'line[3].around',
    /"r" \(pressure-reducer\)/,
  ],
  [
    'two bypasses round one part',
    plant(
      { id: 'v', kind: 'valve' },
      { id: 'b', kind: 'bypass', around: ['v'] },
      { id: 'c', kind: 'bypass', around: ['v'] },
    ),
    'line[2].around',
    /"c" and bypass "b"/,
  ],
  [
    'the same part twice in a bypass',
    plant({ id: 'v', kind: 'valve' }, { id: 'b', kind: 'bypass', around: ['v', 'v'] }),
    'line[1].around[1]',
    /twice/,
  ],
];

describe('a plant is refused, naming the place and the way out', () => {
  it.each(refused)('%s', (_, input, where, message) => {
    const error = refusal(input);
    expect(error.where).toBe(where);
    expect(error.message).toMatch(message);
    expect(error.message).not.toContain('\n');
  });

  it('puts what the reader knows the plant by before the place', () => {
    const input = plant({ id: 't', kind: 'tank', levelM: -1 } as unknown as Part);
    expect(refusal(input, 'case.json: plant').where).toBe('case.json: plant.line[0].levelM');
  });
});

function refusal(input: unknown, where?: string): InputError {
  try {
    parsePlant(input, where);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('was not refused');
}
