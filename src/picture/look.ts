/**
 * The look of a picture. Ink on paper and nothing else: what differs, differs by shape, weight and
 * words, so that it reads in greyscale and to any eye.
 */
export const ink = "#15171c";
export const paper = "#fcfaf5";
export const soft = "#55585f";
export const rule = "#c9c4b8";
export const bandFill = "#e2ddd0";
export const bandEdge = "#8a8578";

export const fontFamily = "Atkinson Hyperlegible Next";

export type Shape = "wide" | "phone";

/** Sizes in px of the finished picture. */
export type Look = {
  readonly shape: Shape;
  readonly width: number;
  /** No picture is lower than this. */
  readonly leastHeight: number;
  /** Plots grow until the picture is this high; it grows beyond only for more stages than fit. */
  readonly fullHeight: number;
  /** A plot grows by this much at most. */
  readonly growth: number;
  readonly margin: number;
  readonly gap: number;
  /** Panels side by side for so many stages. */
  readonly columns: (stages: number) => number;
  /** A stage with nothing to tell takes one line. */
  readonly brief: boolean;
  readonly title: number;
  readonly name: number;
  readonly text: number;
  readonly small: number;
  readonly plot: number;
  readonly mark: number;
  readonly bar: number;
};

/** For a screen on the bench or a post: 1200 px. */
export const wide: Look = {
  shape: "wide",
  width: 1200,
  leastHeight: 480,
  fullHeight: 675,
  growth: 1.7,
  margin: 40,
  gap: 36,
  columns: (stages) => (stages === 4 ? 2 : Math.min(3, stages)),
  brief: false,
  title: 34,
  name: 27,
  text: 21,
  small: 19,
  plot: 190,
  mark: 8,
  bar: 14,
};

/** For a phone held upright: a third of it is read at a time, at a third of the size. */
export const phone: Look = {
  shape: "phone",
  width: 1080,
  leastHeight: 640,
  fullHeight: 1920,
  growth: 2.6,
  margin: 48,
  gap: 36,
  columns: () => 1,
  brief: true,
  title: 54,
  name: 48,
  text: 39,
  small: 36,
  plot: 270,
  mark: 14,
  bar: 22,
};

export const looks: Readonly<Record<Shape, Look>> = { wide, phone };
