// @ts-check
/** Everything of this device in one file, out and in again, and the way to delete it. */

import { download, exportText } from "./book-file.js";
import { BookImport } from "./book-import.js";
import { books } from "./books.js";
import { bringBack, canBringBack, deleteEverything } from "./device.js";
import { one, say, show } from "./dom.js";
import { focusOn } from "./focus.js";
import { askTheEngine } from "./one-engine.js";
import { isSecondTap } from "./second-tap.js";
import { isoDay } from "./time-text.js";

/** @param {HTMLElement} root */
export async function startEverything(root) {
  const shelf = await books();
  const back = one(root, "[data-bring-back-import]");
  const said = one(root, "[data-file-said]");
  const showBack = () => show(back, canBringBack());
  new BookImport(root, shelf, askTheEngine);
  root.addEventListener("changed", () => {
    dispatchEvent(new StorageEvent("storage", { key: "sandmix.settings" }));
    showBack();
  });
  showBack();
  back.addEventListener("click", async () => {
    await bringBack();
    location.reload();
  });
  for (const button of root.querySelectorAll("[data-export-everything]")) {
    button.addEventListener("click", async () => {
      const now = new Date();
      download(`sandmix-everything-${isoDay(now)}.json`, "application/json", await exportText(shelf, now));
      const { events } = await shelf.exported();
      await shelf.noteExport(now.getTime(), events);
      say(said, "Exported.");
    });
  }
  const begin = one(root, "[data-delete-begin]");
  const sure = one(root, "[data-delete-sure]");
  begin.addEventListener("click", () => {
    show(sure, true);
    focusOn(one(sure, "p"));
  });
  one(root, "[data-delete-leave]").addEventListener("click", () => {
    show(sure, false);
    begin.focus();
  });
  const away = one(root, "[data-delete-all]");
  away.addEventListener("click", async () => {
    if (!isSecondTap(away, "Tap again: it cannot be undone")) return;
    await deleteEverything();
    location.reload();
  });
}
