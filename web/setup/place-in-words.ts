import type { Plant } from '../../shared/plant/schema.ts';
import { partName, wordsOfPart } from '../common/part-name.ts';
import type { Say } from '../common/say.ts';
import { fieldsOf, labelKey } from './part-fields.ts';

/** "line[2].curve[1].headM" as the form names it: the part, and its field where there is one; any other place as it is. */
export function placeInWords(where: string, { line }: Plant, say: Say): string {
  const [, index, path = ''] = /^line\[(\d+)\]\.?(.*)$/.exec(where) ?? [];
  const part = index === undefined ? undefined : line[Number(index)];
  if (!part) return where;
  const name = partName(part.id, wordsOfPart(part), say);
  const inForm = path.replaceAll(/\[(\d+)\]/g, '.$1');
  const field = fieldsOf(part).find((one) => one.path === inForm);
  if (field) return `${name}: ${say(labelKey(field))}`;
  return path === '' ? name : where;
}
