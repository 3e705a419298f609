// Where the page begins: it paints first, and only then asks for Python.
import { render } from "preact";
import { App } from "./app";
import { effect } from "@preact/signals";
import { boot } from "./state/boot";
import { startColour } from "./state/colour_start";
import { keepComparison } from "./state/comparison";
import { keepEdges } from "./state/edges";
import { firstPaint } from "./state/marks";
import { keepSettings } from "./state/settings";
import { painted } from "./state/status";
import { keepSurroundings } from "./state/surroundings";
import { waiting } from "./state/work";
import { listen } from "./whole_page";
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
