import { share } from "../support/share.ts";

await share(4);
