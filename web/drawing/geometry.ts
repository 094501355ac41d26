import { toBar } from '../../shared/hydraulics/units.ts';
import { inPressureUnit, type PressureUnit } from '../../shared/ruleset/figures.ts';
import type { Picture } from './picture.ts';

/** Coordinates of a picture, in CSS pixels. Across: tank left, tap right. Up: tank at the bottom, as water climbs. */
export type Direction = 'across' | 'up';

export interface Geometry {
  readonly direction: Direction;
  readonly width: number;
  readonly height: number;
  /** the pipe's point at each part */
  readonly pipe: readonly Point[];
  /** the middle of each part's outline; parts on a tee stand beside the pipe */
  readonly outlines: readonly Point[];
  /** the rectangle of each part that answers a touch */
  readonly touch: readonly Box[];
  readonly plot: Box;
  /** the point of a pressure at a part */
  readonly at: (index: number, bar: number) => Point;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}

/** Parts that stand on a tee and cost no pressure. */
const onTee = new Set(['gauge', 'vessel', 'drain', 'relief-valve', 'dosing-pump']);

const TOUCH = 56;
const LEAST_STEP_ACROSS = 50;
const PLOT_HEIGHT_ACROSS = 250;
const PIPE_UP_X = 30;
const TEE = 36;
const LABEL_UP_X = 88;
const PLOT_UP_X = 168;
const EDGE = 16;

/** The direction that fits: across while every part keeps room for a finger and its name. */
export const directionFor = (parts: number, width: number): Direction =>
  width / (parts + 0.5) >= LEAST_STEP_ACROSS ? 'across' : 'up';

/** @param plotHeight of the pressures above the line, where it runs across */
export function geometryOf(
  picture: Picture,
  width: number,
  direction: Direction,
  plotHeight = PLOT_HEIGHT_ACROSS,
): Geometry {
  return direction === 'across' ? across(picture, width, plotHeight) : up(picture, width);
}

const LEAST_STEP: Readonly<Record<PressureUnit, number>> = { bar: 1, psi: 10, kPa: 100 };
const MOST_STEPS = 6.5;

/** Pressures with a scale line, in bar: round in the reader's unit, and few enough to be read. */
export function scaleOf(topBar: number, unit: PressureUnit): number[] {
  const top = inPressureUnit(topBar, unit);
  let step = LEAST_STEP[unit];
  while (top / step > MOST_STEPS) step *= 2;
  return Array.from({ length: Math.floor(top / step) + 1 }, (_, i) => toBar[unit](i * step));
}

function across(picture: Picture, width: number, plotHeight: number): Geometry {
  const { parts, topBar } = picture;
  const left = 44;
  const step = (width - left - EDGE) / parts.length;
  const plot = { x: left, y: 28, width: width - left - EDGE, height: plotHeight };
  const pipeY = plot.y + plot.height + 96;
  const x = (index: number): number => left + step * (index + 0.5);
  const pipe = parts.map((_, i) => ({ x: x(i), y: pipeY }));
  const outlines = parts.map((part, i) => ({
    x: x(i),
    y: onTee.has(part.kind) ? pipeY - TEE : pipeY,
  }));
  return {
    direction: 'across',
    width,
    height: pipeY + 92,
    pipe,
    outlines,
    touch: parts.map((_, i) => ({
      x: x(i) - step / 2,
      y: pipeY - TEE - 22,
      width: step,
      height: TEE + 22 + 86,
    })),
    plot,
    at: (index, bar) => ({ x: x(index), y: plot.y + plot.height * (1 - bar / topBar) }),
  };
}

function up(picture: Picture, width: number): Geometry {
  const { parts, topBar } = picture;
  const top = 34;
  const y = (index: number): number => top + TOUCH * (parts.length - 1 - index + 0.5);
  const height = top + TOUCH * parts.length + 12;
  const plot = {
    x: PLOT_UP_X,
    y: top,
    width: width - PLOT_UP_X - EDGE,
    height: TOUCH * parts.length,
  };
  return {
    direction: 'up',
    width,
    height,
    pipe: parts.map((_, i) => ({ x: PIPE_UP_X, y: y(i) })),
    outlines: parts.map((part, i) => ({
      x: PIPE_UP_X + (onTee.has(part.kind) ? TEE - 4 : 0),
      y: y(i),
    })),
    touch: parts.map((_, i) => ({
      x: 0,
      y: y(i) - TOUCH / 2,
      width: PLOT_UP_X - 8,
      height: TOUCH,
    })),
    plot,
    at: (index, bar) => ({ x: plot.x + (plot.width * bar) / topBar, y: y(index) }),
  };
}

/** Where the name of a part stands when the line runs up. */
export const labelUpX = LABEL_UP_X;

/** "M0,0L10,5": a line through points. */
export function lineThrough(points: readonly Point[]): string {
  return points
    .map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)},${y.toFixed(1)}`)
    .join('');
}

/** A closed band between two lines. */
export function bandBetween(low: readonly Point[], high: readonly Point[]): string {
  return `${lineThrough([...low, ...high.toReversed()])}Z`;
}
