import { expect, test } from 'vitest';
import { pathParts } from '../../web/common/path-parts.ts';

test.each([
  ['/', []],
  ['/case/a%20b/work', ['case', 'a b', 'work']],
  ['/case/100%', ['case', '100%']],
  ['/case/%E0%A4%A/dates', ['case', '%E0%A4%A', 'dates']],
])('the address %s is told apart, whatever somebody typed', (path, parts) => {
  expect(pathParts(path)).toEqual(parts);
});
