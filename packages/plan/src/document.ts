import type { PartDrawing, Pen } from '@sheetwave/drawings';
import type { Bounds } from '@sheetwave/geometry';

/** Everything a person needs to build one antenna, in reading order. Plain content: each writer decides how it looks. */
export interface PlanDocument {
  readonly title: string;
  /** Revision, date and what it is, in one line. */
  readonly subtitle: string;
  /** What it is, for the properties of a file. */
  readonly about: string;
  /** BCP 47. */
  readonly language: string;
  /** ISO 8601, or undefined for none. */
  readonly date: string | undefined;
  readonly sections: readonly Section[];
  readonly steps: readonly Step[];
  readonly tools: readonly Tool[];
  /** What the steps name, by id. */
  readonly parts: readonly { readonly id: string; readonly name: string; readonly quantity: number }[];
  readonly drawings: readonly PartSheet[];
  /** Templates and drill maps at 1:1, to mark out and drill by: what the last section is about. */
  readonly fullSize: readonly PartDrawing[];
}

export interface Section {
  /** Unique in the document, safe as an anchor. */
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly PlanBlock[];
}

export type PlanBlock =
  | { readonly kind: 'heading'; readonly id: string; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  /** What must be read before going on: framed. */
  | { readonly kind: 'notice'; readonly title: string; readonly items: readonly string[] }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | PlanTable
  | { readonly kind: 'figure'; readonly figure: PlanFigure }
  | { readonly kind: 'step'; readonly step: Step };

export interface PlanTable {
  readonly kind: 'table';
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A drawing among the words. Its box is paper: mm, y up. */
export interface PlanFigure {
  readonly id: string;
  readonly caption: string;
  /** What it shows, for who cannot see it. */
  readonly alt: string;
  readonly box: Bounds;
  /** True when its lengths mean something on paper: it must be drawn as large as it is. */
  readonly toScale: boolean;
  draw(pen: Pen): void;
}

/** One thing to do, in its place among the others. */
export interface Step {
  readonly id: string;
  readonly title: string;
  /** Parts it takes in hand, by the id of the parts list. */
  readonly parts: readonly string[];
  /** By the id of the list of tools. */
  readonly tools: readonly string[];
  /** Files of the pack it needs, by path. */
  readonly files: readonly string[];
  readonly lines: readonly string[];
  /** How to know that it is right; empty for none. */
  readonly check: string;
  readonly figure: PlanFigure | undefined;
}

export interface Tool {
  readonly id: string;
  readonly name: string;
  /** What kind of it, for the list of tools; empty for any. */
  readonly detail: string;
}

/** All dimensions of a made part as its drawing gives them. */
export interface PartSheet {
  readonly part: string;
  readonly figure: PlanFigure;
  readonly tables: readonly PlanTable[];
}

export const paragraph = (text: string): PlanBlock => ({ kind: 'paragraph', text });
export const list = (items: readonly string[]): PlanBlock => ({ kind: 'list', items });
export const heading = (id: string, text: string): PlanBlock => ({ kind: 'heading', id, text });
export const figureBlock = (figure: PlanFigure): PlanBlock => ({ kind: 'figure', figure });
export const table = (caption: string, head: readonly string[], rows: readonly (readonly string[])[]): PlanTable => ({
  kind: 'table',
  caption,
  head,
  rows,
});
