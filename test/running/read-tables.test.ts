/** The reader of a tables folder against a folder of its own, which no other test may write. */
import { assertEquals, assertThrows } from "@std/assert";
import { readTableFiles } from "../../src/read-tables.ts";

Deno.test("a tables folder is read with a path too, and a file that is not JSON is named", () => {
  const folder = Deno.makeTempDirSync();
  try {
    Deno.mkdirSync(`${folder}/2023`);
    Deno.writeTextFileSync(`${folder}/sources.json`, "{}");
    Deno.writeTextFileSync(`${folder}/2023/edition.json`, `{"id": "2023"}`);
    Deno.writeTextFileSync(`${folder}/notes.txt`, "not a table");
    assertEquals(Object.keys(readTableFiles(folder)).sort(), ["2023/edition.json", "sources.json"]);
    assertEquals(readTableFiles(folder), readTableFiles(new URL(`file://${folder}`)));
    Deno.writeTextFileSync(`${folder}/2023/constants.json`, "{,}");
    assertThrows(() => readTableFiles(folder)["2023/constants.json"], SyntaxError, "2023/constants.json");
  } finally {
    Deno.removeSync(folder, { recursive: true });
  }
});
