/** Makes PDFs in a worker, so that nobody else waits for one: started by the first, and ended when none is asked for. */
import type { Printed } from "../paper/worker.ts";
import type { Paper } from "../render/paper.ts";
import { Problem } from "./problem.ts";

type PressOptions = {
  start?: () => Worker;
  /** PDFs that are made or wait for it. */
  most?: number;
  /** How long one may take, with its wait, in ms: less than a call may. */
  longest?: number;
  /** How long the worker is kept for a next one, in ms. */
  idle?: number;
};
export type Press = {
  /** @throws Problem 503 when too many wait, or it takes too long */
  print(paper: Paper): Promise<Uint8Array<ArrayBuffer>>;
  /** Ends the worker, and with it what is still to be made. */
  end(): void;
};
type Job = {
  paper: Paper;
  done: (pdf: Uint8Array<ArrayBuffer>) => void;
  fail: (why: Error) => void;
  timer: ReturnType<typeof setTimeout>;
};

const startWorker = () => new Worker(new URL("../paper/worker.ts", import.meta.url), { type: "module" });
const busy = (why: string) =>
  new Problem(503, `${why} Try again in a moment, or print the page (as=html).`, { headers: { "Retry-After": "5" } });

export function makePress({ start = startWorker, most = 8, longest = 8_000, idle = 60_000 }: PressOptions = {}): Press {
  let worker: Worker | undefined;
  let leaving: ReturnType<typeof setTimeout> | undefined;
  /** In the order they came; the worker has the first. */
  const jobs: Job[] = [];

  const stop = () => {
    clearTimeout(leaving);
    worker?.terminate();
    worker = undefined;
  };
  const begin = () => {
    clearTimeout(leaving);
    const [first] = jobs;
    if (!first) {
      if (worker) leaving = setTimeout(stop, idle);
      return;
    }
    if (!worker) {
      const own = worker = start();
      own.onmessage = ({ data }: MessageEvent<Printed>) =>
        finish(jobs[0], (job) => "pdf" in data ? job.done(data.pdf) : job.fail(new Error(data.failed)));
      // Dead before it answered: the next one gets a new one.
      own.onerror = (event) => {
        event.preventDefault();
        if (worker !== own) return;
        stop();
        finish(jobs[0], (job) => job.fail(new Error(event.message)));
      };
    }
    worker.postMessage(first.paper);
  };
  const finish = (job: Job | undefined, how: (job: Job) => void) => {
    if (!job) return;
    const isFirst = job === jobs[0];
    jobs.splice(jobs.indexOf(job), 1);
    clearTimeout(job.timer);
    how(job);
    if (isFirst) begin();
  };

  return {
    print: (paper) =>
      new Promise((done, fail) => {
        if (jobs.length >= most) return fail(busy(`${most} PDFs are being made already.`));
        const job: Job = {
          paper,
          done,
          fail,
          timer: setTimeout(() => {
            // What it is at cannot be taken back from a worker.
            if (job === jobs[0]) stop();
            finish(job, ({ fail }) => fail(busy("The PDF took too long.")));
          }, longest),
        };
        jobs.push(job);
        if (jobs.length === 1) begin();
      }),
    end() {
      stop();
      for (const job of jobs.splice(0)) {
        clearTimeout(job.timer);
        job.fail(busy("The service is stopping."));
      }
    },
  };
}
