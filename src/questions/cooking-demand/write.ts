/** The request as it would be typed. */
export const write = (_: unknown): string => "";
