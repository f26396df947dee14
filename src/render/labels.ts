/** Words by which our own printed text is known again when it is pasted back. */

/** Stands before the request in plain words. */
export const AS_READ = "As read: ";
/** Stands before the edition of the code. */
export const CODE = "Code: ";
/** Head the figures and the steps. */
export const [FIGURES, WORKSHEET] = ["Figures", "Worksheet"];
/** Stands before the link, and ends the text. */
export const ALL_STEPS = "All steps: ";
/** Stand before what became of the asked words. */
export const [NOT_READ, HEARD, LEFT_OUT] = ["Not read: ", "Heard: ", "Left out of the sums: "];
