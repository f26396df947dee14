import type { DropRequest } from "./request.ts";
export const write = (_: DropRequest): string => "";
