// The page: margin, wall, and the work in the order of the bench.
import { MarginNotes } from "./margin_notes";
import { Masthead } from "./header";
import { Loading, Preview } from "./preview";
import { SettingsLine } from "./settings_line";
import { compared } from "./state/compare/comparison";
import { busy, shown } from "./state/work/work";
import { loading, painted, quiet } from "./state/page/status";
import { scene, wallState } from "./state/page/view";
import { ColourCaption, LitCaption } from "./wall/colour_caption";
import { FoldSlider, Looks } from "./wall/stage_controls";
import { PaneCaptions } from "./wall/pane_captions";
import { SheetView } from "./wall/sheet_view";
import { SheetWords } from "./wall/sheet_words";
import { Wall } from "./wall/wall";
import { dropping } from "./page_events";
import { BarsSection } from "./sections/bars/bars";
import { BenchSection } from "./sections/stretching";
import { CanvasSection } from "./sections/canvas";
import { ColourSection } from "./sections/colour/colour";
import { CompareSection } from "./sections/compare/compare";
import { PictureSection } from "./sections/picture/picture";
import { PrintSection } from "./sections/print/print";
import { ShowingSection } from "./sections/showing/showing";
import { SheetSection } from "./sections/sheet";
import { SidesSection } from "./sections/sides/sides";

const PLACES = [
  ["picture", "Picture"],
  ["bars", "Bars"],
  ["sides", "Sides"],
  ["sheet", "Sheet"],
  ["canvas", "Canvas"],
  ["colour", "Colour"],
  ["compare", "Compare"],
  ["print", "Print"],
  ["showing", "Showing"],
  ["bench", "Bench"],
] as const;

export function App() {
  return (
    <div class="page">
      <a class="skip" href="#work">
        To the work
      </a>
      <Masthead />
      <main class="main">
        <div class="stage">
          <div class="stage-picture">
            {painted.value && <Wall />}
            {scene.value === "sheet" && <SheetView />}
            <Preview />
            {wallState.value === "lost" && (
              <p class="lost">
                The graphics processor let go of the wall; it is being brought back. The sheet can still be seen.
              </p>
            )}
            {wallState.value === "still" && (
              <p class="lost" role="status">
                The graphics processor has not come back. This is a still picture of the wall as it was; the sheet, the
                figures and all files still follow every change. Loading the page again may bring the wall back.
              </p>
            )}
            {shown.value !== undefined && loading.value.state !== "ready" && (
              <div class="again">
                <Loading />
              </div>
            )}
            {shown.value !== undefined && scene.value === "wall" && compared.value === undefined && (
              <ColourCaption place="wall" />
            )}
            <LitCaption />
            <PaneCaptions />
            <Status />
          </div>
          <div class="ledge">
            {shown.value === undefined ? (
              <Loading />
            ) : (
              <>
                <Looks />
                {scene.value === "wall" ? <FoldSlider /> : <SheetWords />}
                {scene.value === "wall" && compared.value !== undefined && <ColourCaption place="ledge" />}
              </>
            )}
          </div>
        </div>
        <MarginNotes />
        <div class="work" id="work" tabIndex={-1}>
          {shown.value === undefined ? (
            <p class="work-waits">
              {loading.value.state === "failed"
                ? "The work cannot begin."
                : "The bench is being set up: Python is loading in this page. Nothing is sent anywhere."}
            </p>
          ) : (
            <>
              <nav class="places" aria-label="Places at the bench">
                {PLACES.map(([id, word]) => (
                  <a key={id} href={`#${id}`}>
                    {word}
                  </a>
                ))}
              </nav>
              <PictureSection />
              <BarsSection />
              <SidesSection />
              <SheetSection />
              <CanvasSection />
              <ColourSection />
              <CompareSection />
              <PrintSection />
              <ShowingSection />
              <BenchSection />
              <SettingsLine />
            </>
          )}
        </div>
      </main>
      {dropping.value && <div class="dropping">Let go to open it</div>}
    </div>
  );
}

/** What has just happened, and that the core is at work. */
function Status() {
  return (
    <div class="status">
      <p class="status-quiet" role="status">
        {quiet.value}
      </p>
      <p class="status-busy" aria-hidden="true" data-busy={busy.value !== ""}>
        {busy.value}
      </p>
    </div>
  );
}
