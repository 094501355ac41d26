/** Width of a drawing on paper in CSS pixels: 180 mm, which both A4 and Letter leave between their margins. */
export const PAPER_WIDTH = 680;
