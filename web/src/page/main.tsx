// Where the page begins: it paints first, and only then asks for Python.
import { render } from "preact";
import { App } from "./app";
import { effect } from "@preact/signals";
import { boot } from "./state/work/boot";
import { startColour } from "./state/colour_start";
import { keepComparison } from "./state/compare/comparison";
import { keepEdges } from "./state/sides/edges";
import { firstPaint, painted } from "./state/page/status";
import { keepSettings } from "./state/page/settings";
import { keepSurroundings } from "./state/page/surroundings";
import { waiting } from "./state/work/work";
import { listen } from "./page_events";
import "./style/page.css";

const page = document.getElementById("page");
if (page === null) throw new Error("index.html has no place for the page");
keepSettings();
keepSurroundings();
render(<App />, page);
// For whoever watches the page from outside: whether what was asked for is on the stage.
effect(() => {
  document.documentElement.dataset["waiting"] = String(waiting.value);
});
listen();
startColour();
keepEdges();
keepComparison();
await firstPaint();
painted.value = true;
await boot();
