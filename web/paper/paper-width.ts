/** Width of a drawing on paper in CSS pixels: 180 mm, which both A4 and Letter leave between their margins. */
export const PAPER_WIDTH = 680;
/** Height of the pressures in the report, so that the words of a long case keep their room on Letter. */
export const REPORT_PLOT_HEIGHT = 84;
