import type { Plant } from '../../shared/plant/schema.ts';
import { type Picture, pictureOf } from '../drawing/picture.ts';

/** The picture of a plant of which nothing was asked yet: what it shows when clean. */
export function plantPicture(plant: Plant): Picture {
  return pictureOf({ plant, readings: new Map(), offsets: null }, [], null);
}
