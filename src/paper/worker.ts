/** Makes PDFs, one after the other, beside whatever else the service answers. */
import type { Paper } from "../render/paper.ts";
import { pdfOf } from "./pdf.ts";

/** What comes of a paper: its PDF, or where its making failed. */
export type Printed = { pdf: Uint8Array<ArrayBuffer> } | { failed: string };

const worker = globalThis as unknown as Pick<Worker, "onmessage" | "postMessage">;
worker.onmessage = async ({ data }: MessageEvent<Paper>) => {
  try {
    const pdf = await pdfOf(data);
    worker.postMessage({ pdf } satisfies Printed, [pdf.buffer]);
  } catch (error) {
    worker.postMessage({ failed: String(error instanceof Error ? error.stack : error) } satisfies Printed);
  }
};
