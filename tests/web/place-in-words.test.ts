import { expect, test } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { placeInWords } from '../../web/setup/place-in-words.ts';

const say = (key: string, holes: Readonly<Record<string, string | number>> = {}): string =>
  [key, ...Object.values(holes)].join(' ');
const pump = fernhollow.line.findIndex(({ kind }) => kind === 'pump');

test.each([
  [`line[${pump}].control.cutInBar`, 'kind-pump: field-control-cutinbar'],
  [`line[${pump}].curve[1].headM`, 'kind-pump: field-curve-1-headm'],
  [`line[${pump}]`, 'kind-pump'],
  // nothing in the form
  [`line[${pump}].npshRequired[0].headM`, `line[${pump}].npshRequired[0].headM`],
  ['line[99]', 'line[99]'],
  ['altitudeM', 'altitudeM'],
])('%s is told as %s', (where, told) => {
  expect(placeInWords(where, fernhollow, say)).toBe(told);
});
