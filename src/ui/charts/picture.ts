import { addDays, type Day } from '../../domain/day';
import type { Measure } from '../../domain/measure';

/*
 * What a picture of an answer shows: points with their numbers, and the words of each. The chart, the line under it and the table are drawn from the same.
 */

/** How a series is drawn: dots (left, or what stands alone: discs; right, or what it is held against: squares), bars, lines. */
export type SeriesAs = 'disc' | 'square' | 'bar' | 'line' | 'dashes';

export type Mark = {
  /** Which of the picture's series. */
  readonly series: number;
  readonly value: number;
  /** The range it lies in. */
  readonly low?: number;
  readonly high?: number;
  /** What bars are counted from, where they stand on another; else 0. */
  readonly from?: number;
  /** Not all of it is known: the least it can have been, drawn open. */
  readonly least?: boolean;
};

export type PicturePoint = {
  readonly key: string;
  /** The day, or the first day of the week; absent of what is counted and of rows. */
  readonly day?: Day;
  /** What a row is called, and what stands at its end. */
  readonly name?: string;
  readonly beside?: string;
  /** Without any, the point stands in the table alone. */
  readonly marks: readonly Mark[];
  /** Of a week: what it comes to, in a few words. */
  readonly sum?: string;
  /** Its numbers in words, a line each. */
  readonly said: readonly string[];
  /** Its line of the table, one for each column. */
  readonly cells: readonly string[];
};

export type Picture = {
  readonly id: string;
  readonly title: string;
  /** By week, by day, counted one after the other, or rows below each other. */
  readonly as: 'weeks' | 'days' | 'counts' | 'rows';
  /** What it is of, in a few words, where the title of its topic does not say it. */
  readonly of?: string;
  /** What the numbers are, in a few words. */
  readonly caption: string;
  readonly measure: Measure;
  readonly series: readonly SeriesAs[];
  /** Drawn as a tint behind: where it usually lies, or what is published. */
  readonly range?: { readonly low: number; readonly high: number };
  /** The least and the most there can be: the axis goes from one to the other. */
  readonly ends?: readonly [least: number, most: number];
  /** A line across: the own normal. */
  readonly level?: number;
  readonly columns: readonly string[];
  /** In the order of their days, or of the rows. */
  readonly points: readonly PicturePoint[];
  /** The point whose numbers are told first; else the last one, or of rows the first. */
  readonly opens?: string;
  /** What marks and tints mean. */
  readonly notes: readonly string[];
};

/** How far back is shown. */
export const WINDOWS = ['4', '12', 'all'] as const;
export type Window = (typeof WINDOWS)[number];

/** Returns the first day of a window that ends on a day; undefined for all there is. */
export const windowFrom = (window: Window, today: Day): Day | undefined =>
  window === 'all' ? undefined : addDays(today, 1 - 7 * Number(window));

/** Returns a picture from a day on: of weeks those that end on it or later. What goes by no day stays as it is. */
export function since(picture: Picture, from: Day | undefined): Picture {
  if (from === undefined || !(picture.as === 'weeks' || picture.as === 'days')) return picture;
  const first = picture.as === 'weeks' ? addDays(from, -6) : from;
  return { ...picture, points: picture.points.filter(({ day }) => day === undefined || day >= first) };
}

/** Returns true for a point that is drawn. */
export const isDrawn = ({ marks }: PicturePoint): boolean => marks.length > 0;
