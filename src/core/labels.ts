/** Words by which our own printed text is known again when it is pasted back. */

/** Stands before the request in plain words. */
export const AS_READ = "As read: ";
/** Stands before the edition of the code. */
export const CODE = "Code: ";
/** Heads the figures. */
export const FIGURES = "Figures";
/** Stands before the link, and ends the text. */
export const ALL_STEPS = "All steps: ";
